import { Color, type IUniform, MeshLambertMaterial } from 'three';
import { TINT_STRENGTH_GLSL } from '../../kit/tint.ts';

/**
 * A matt surface tinted by the gap to the nearest other part. A thick line marks zero clearance, a thin line zero margin;
 * the surface is hatched inside another part.
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
        ${TINT_STRENGTH_GLSL}
        /** 1 on the contour where a value passes through 0, this many pixels wide. */
        float onContour(float value, float widthPx) {
          float steepness = max(fwidth(value), 1e-6);
          return 1.0 - smoothstep(widthPx * 0.5, widthPx * 0.5 + 1.0, abs(value) / steepness);
        }
        ${shader.fragmentShader
          .replace(
            '#include <color_fragment>',
            `#include <color_fragment>
            float strength = tintStrength(vClearanceMm);
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

  /** Colours of the tint, of the line at zero margin and of contact. */
  setColours(tint: string, line: string, touch: string): void {
    this.own.tint.value.set(tint);
    this.own.line.value.set(line);
    this.own.touch.value.set(touch);
  }

  override customProgramCacheKey(): string {
    return 'shade';
  }
}
