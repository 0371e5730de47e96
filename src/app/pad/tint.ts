/** Margin beyond which the map has no tint to speak of. */
export const TINT_REACH_MM = 20;
/** Strength where nothing is left. */
export const STRONGEST = 0.92;
/** The tint falls by e over this much margin: the first millimetres tell most. */
export const FALL_MM = 7;

/** Strength of the accent on a map cell, 0 to 1: strongest where the margin is used up, gone where all is far. */
export const tintStrength = (marginMm: number): number =>
  STRONGEST * Math.exp(-Math.max(0, marginMm) / FALL_MM);
