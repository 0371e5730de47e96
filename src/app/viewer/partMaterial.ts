import { Color, type IUniform, MeshLambertMaterial } from 'three';

/** A matt material that can be hatched: touching parts are marked by pattern as well as colour. */
export class PartMaterial extends MeshLambertMaterial {
  private readonly hatched: IUniform<number> = { value: 0 };
  private readonly hatchColour: IUniform<Color> = { value: new Color() };

  constructor() {
    super();
    this.onBeforeCompile = (shader) => {
      shader.uniforms.hatched = this.hatched;
      shader.uniforms.hatchColour = this.hatchColour;
      shader.fragmentShader = `uniform float hatched;\nuniform vec3 hatchColour;\n${shader.fragmentShader.replace(
        '#include <tonemapping_fragment>',
        `if (hatched > 0.5) {
          float place = mod(gl_FragCoord.x + gl_FragCoord.y, 11.0);
          float line = smoothstep(0.0, 1.0, place) * (1.0 - smoothstep(2.0, 3.0, place));
          gl_FragColor = mix(gl_FragColor, vec4(hatchColour, 1.0), 0.85 * line);
        }
        #include <tonemapping_fragment>`,
      )}`;
    };
  }

  /** Hatches in `colour`; undefined for no hatch. */
  set hatch(colour: string | undefined) {
    this.hatched.value = colour === undefined ? 0 : 1;
    if (colour !== undefined) this.hatchColour.value.set(colour);
  }

  override customProgramCacheKey(): string {
    return 'part';
  }
}
