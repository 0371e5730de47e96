import { Color, type IUniform, type Material, MeshBasicMaterial, MeshLambertMaterial } from 'three';

/** Depth of glass, as far back as its faces are drawn, so that its own faces pass it. */
export const depthOnly = new MeshBasicMaterial({
  colorWrite: false,
  polygonOffset: true,
  polygonOffsetFactor: 1,
  polygonOffsetUnits: 1,
});

/** Makes a material opaque (1), or less, so that what is behind shows and no depth is written. */
export function setOpacity(material: Material, opacity: number): void {
  const transparent = opacity < 1;
  // The shader of an opaque material ignores opacity: it must be made anew.
  if (transparent !== material.transparent) material.needsUpdate = true;
  material.transparent = transparent;
  material.depthWrite = !transparent;
  material.opacity = opacity;
}

/** A matt material that can be hatched: touching parts are marked by pattern as well as colour. */
export class PartMaterial extends MeshLambertMaterial {
  private readonly hatched: IUniform<number> = { value: 0 };
  private readonly hatchColour: IUniform<Color> = { value: new Color() };

  constructor() {
    // Faces a hair back, so that the lines on them are not swallowed.
    super({ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });
    this.onBeforeCompile = (shader) => {
      shader.uniforms.hatched = this.hatched;
      shader.uniforms.hatchColour = this.hatchColour;
      shader.fragmentShader = `uniform float hatched;\nuniform vec3 hatchColour;\n${shader.fragmentShader.replace(
        '#include <tonemapping_fragment>',
        `if (hatched > 0.0) {
          float place = mod(gl_FragCoord.x + gl_FragCoord.y, 11.0);
          float line = smoothstep(0.0, 1.0, place) * (1.0 - smoothstep(2.0, 3.0, place));
          gl_FragColor = mix(gl_FragColor, vec4(hatchColour, 1.0), hatched * line);
        }
        #include <tonemapping_fragment>`,
      )}`;
    };
  }

  /** Hatches in `colour`, as strongly as `strength` says (0 to 1); undefined for no hatch. */
  hatch(colour: string | undefined, strength: number): void {
    this.hatched.value = colour === undefined ? 0 : strength;
    if (colour !== undefined) this.hatchColour.value.set(colour);
  }

  override customProgramCacheKey(): string {
    return 'part';
  }
}
