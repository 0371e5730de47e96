import { Color, type IUniform, MeshLambertMaterial } from 'three';
import { FALL_MM, STRONGEST } from '../pad/tint.ts';

/**
 * A matt surface tinted by how near the nearest other part is, with a line where nothing is left and one where the target
 * begins to be missed, and hatched where it reaches into another.
 */
export class ShadeMaterial extends MeshLambertMaterial {
  private readonly own: Record<'tint' | 'line' | 'touch', IUniform<Color>> = {
    tint: { value: new Color() },
    line: { value: new Color() },
    touch: { value: new Color() },
  };

  constructor() {
    super({ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });
    this.onBeforeCompile = (shader) => {
      Object.assign(shader.uniforms, this.own);
      shader.vertexShader = `attribute float clearanceMm;
        attribute float marginMm;
        varying float vClearanceMm;
        varying float vMarginMm;
        ${shader.vertexShader.replace(
          '#include <begin_vertex>',
          '#include <begin_vertex>\nvClearanceMm = clearanceMm;\nvMarginMm = marginMm;',
        )}`;
      shader.fragmentShader = `uniform vec3 tint;
        uniform vec3 line;
        uniform vec3 touch;
        varying float vClearanceMm;
        varying float vMarginMm;
        /** 1 on the contour where a value passes through 0, this many pixels wide. */
        float onContour(float value, float widthPx) {
          float steepness = max(fwidth(value), 1e-6);
          return 1.0 - smoothstep(widthPx * 0.5, widthPx * 0.5 + 1.0, abs(value) / steepness);
        }
        ${shader.fragmentShader
          .replace(
            '#include <color_fragment>',
            `#include <color_fragment>
            float strength = ${STRONGEST.toFixed(3)} * exp(-max(0.0, vClearanceMm) / ${FALL_MM.toFixed(3)});
            diffuseColor.rgb = mix(diffuseColor.rgb, tint, strength);
            diffuseColor.a = mix(diffuseColor.a, 1.0, strength);`,
          )
          .replace(
            '#include <tonemapping_fragment>',
            `float place = mod(gl_FragCoord.x + gl_FragCoord.y, 9.0);
            float hatch = smoothstep(0.0, 1.0, place) * (1.0 - smoothstep(2.5, 3.5, place));
            if (vClearanceMm < 0.0) gl_FragColor = mix(gl_FragColor, vec4(touch, 1.0), hatch);
            gl_FragColor = mix(gl_FragColor, vec4(line, 1.0), onContour(vMarginMm, 1.0));
            gl_FragColor = mix(gl_FragColor, vec4(touch, 1.0), onContour(vClearanceMm, 3.0));
            #include <tonemapping_fragment>`,
          )}`;
    };
  }

  /** Colour of the tint, of the line at the target and of what touches. */
  setColours(tint: string, line: string, touch: string): void {
    this.own.tint.value.set(tint);
    this.own.line.value.set(line);
    this.own.touch.value.set(touch);
  }

  override customProgramCacheKey(): string {
    return 'shade';
  }
}
