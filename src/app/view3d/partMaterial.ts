import { Color, type IUniform, type Material, MeshBasicMaterial, MeshLambertMaterial } from 'three';

/** Writes the depth of glass only, with the polygon offset of its faces, so that these pass the depth test. */
export const depthOnly = new MeshBasicMaterial({
  colorWrite: false,
  polygonOffset: true,
  polygonOffsetFactor: 1,
  polygonOffsetUnits: 1,
});

/** Sets the opacity of a material; below 1 it is transparent and writes no depth. */
export function setOpacity(material: Material, opacity: number): void {
  const transparent = opacity < 1;
  // The shader of an opaque material ignores opacity, so it must be recompiled.
  if (transparent !== material.transparent) material.needsUpdate = true;
  material.transparent = transparent;
  material.depthWrite = !transparent;
  material.opacity = opacity;
}

/** A matt material with optional hatching, so that touching parts are marked by pattern as well as colour. */
export class PartMaterial extends MeshLambertMaterial {
  private readonly hatched: IUniform<number> = { value: 0 };
  private readonly hatchColour: IUniform<Color> = { value: new Color() };

  constructor() {
    // Offsets the faces backward, so that lines on them stay visible.
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

  /** Hatches in `colour` with `strength` 0 to 1; undefined for no hatch. */
  hatch(colour: string | undefined, strength: number): void {
    this.hatched.value = colour === undefined ? 0 : strength;
    if (colour !== undefined) this.hatchColour.value.set(colour);
  }

  override customProgramCacheKey(): string {
    return 'part';
  }
}
