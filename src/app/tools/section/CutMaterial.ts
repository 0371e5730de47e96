import { Color, DoubleSide, type IUniform, MeshBasicMaterial } from 'three';

/**
 * A cut face with thin slanted hatching as on a drawing. Neighbouring parts slant differently, so that they can be
 * distinguished without their tones.
 */
export class CutMaterial extends MeshBasicMaterial {
  private readonly slant: IUniform<number> = { value: 1 };
  private readonly strength: IUniform<number> = { value: 0 };
  private readonly ink: IUniform<Color> = { value: new Color() };

  constructor() {
    // Double-sided: a right corner is mirrored, which flips faces. Offset, so that the face does not hide its outline.
    super({
      side: DoubleSide,
      transparent: true,
      polygonOffset: true,
      polygonOffsetFactor: 0.5,
      polygonOffsetUnits: 0.5,
    });
    this.onBeforeCompile = (shader) => {
      shader.uniforms.slant = this.slant;
      shader.uniforms.strength = this.strength;
      shader.uniforms.ink = this.ink;
      shader.fragmentShader = `uniform float slant;\nuniform float strength;\nuniform vec3 ink;\n${shader.fragmentShader.replace(
        '#include <tonemapping_fragment>',
        `float place = mod(gl_FragCoord.x + slant * gl_FragCoord.y, 9.0);
        float line = smoothstep(0.0, 1.0, place) * (1.0 - smoothstep(1.0, 2.0, place));
        gl_FragColor = mix(gl_FragColor, vec4(ink, 1.0), strength * line);
        #include <tonemapping_fragment>`,
      )}`;
    };
  }

  /** Sets hatching that rises (1) or falls (-1) to the right, in `ink`, with a strength from 0 to 1. */
  hatch(slant: 1 | -1, ink: string, strength: number): void {
    this.slant.value = slant;
    this.strength.value = strength;
    this.ink.value.set(ink);
  }

  override customProgramCacheKey(): string {
    return 'cut';
  }
}
