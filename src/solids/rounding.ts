/** Rounding error of a point from the modeller (Float32), mm: half a unit in the last place at `reachMm`, times sqrt 3. */
export const roundingMm = (reachMm: number): number => reachMm * 2 ** -24 * Math.sqrt(3);
