/** Margin beyond which the tint is negligible. */
export const TINT_REACH_MM = 20;
/** Share of ink in the colour of a surface without tint. */
export const GROUND_INK = 0.2;
/** Tint strength at zero margin. */
const MAX_TINT = 0.92;
/** Margin over which the tint falls by a factor of e. */
const DECAY_MM = 7;
/** Steps of the ramp. */
const STOPS = 12;

/** Tint strength, 0 to 1: strongest at zero margin, close to 0 beyond `TINT_REACH_MM`. */
export const tintStrength = (marginMm: number): number =>
  MAX_TINT * Math.exp(-Math.max(0, marginMm) / DECAY_MM);

/** The same function for a shader. */
export const TINT_STRENGTH_GLSL = `float tintStrength(float marginMm) {
  return ${MAX_TINT.toFixed(3)} * exp(-max(0.0, marginMm) / ${DECAY_MM.toFixed(3)});
}`;

/** The tint of surfaces from zero to a margin, as a background of a legend. */
export const tintRamp = (toMm: number): string =>
  `linear-gradient(to right, ${Array.from({ length: STOPS + 1 }, (_, i) => {
    const strength = tintStrength((toMm * i) / STOPS);
    const ground = `color-mix(in srgb, var(--ink) ${100 * GROUND_INK}%, var(--bench))`;
    return `color-mix(in srgb, var(--accent) ${(100 * strength).toFixed(1)}%, ${ground})`;
  }).join(', ')})`;
