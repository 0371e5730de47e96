/** Margin at which the map's tint has all but gone: beyond this nobody looks twice. */
export const TINT_REACH_MM = 40;
const STRONGEST = 0.92;
const FAINTEST = 0.04;

/** Strength of the accent on a map cell, 0 to 1: strongest where the margin is used up, gone where all is far. */
export function tintStrength(marginMm: number): number {
  const left = Math.max(0, Math.min(1, 1 - marginMm / TINT_REACH_MM));
  return FAINTEST + (STRONGEST - FAINTEST) * left ** 2;
}
