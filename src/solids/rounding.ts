/** Coordinates leave the modeller as Float32: half a unit in the last place at `reachMm` from its origin, x sqrt 3. */
export const roundingMm = (reachMm: number): number => reachMm * 2 ** -24 * Math.sqrt(3);
