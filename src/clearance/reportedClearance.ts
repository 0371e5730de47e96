import type { ClearanceKind } from './clearance.ts';

/** A depth gets no upper bound if its uncertainty is above both this length and this share of the depth. */
const MAX_UNCERTAINTY_MM = 0.2;
const MAX_UNCERTAINTY_SHARE = 0.05;

/** Result of a query, as in `PairQuery`. */
interface QueryResult {
  kind: ClearanceKind;
  distanceMm: number;
  errorMm: number;
  surfaceErrorMm: number;
}

/**
 * The clearance and its error for results, mm; `poseErrorMm` is the error of the pose. If the upper bound of a depth
 * is too far off to be useful, the error is Infinity and the clearance is a proven bound: the parts overlap at least
 * that deep, with all errors subtracted; 0 if not even contact is proved.
 */
export function reportedClearance(
  { kind, distanceMm, errorMm, surfaceErrorMm }: QueryResult,
  poseErrorMm: number,
): { clearanceMm: number; errorMm: number } {
  const maxUncertaintyMm = Math.max(MAX_UNCERTAINTY_MM, -MAX_UNCERTAINTY_SHARE * distanceMm);
  if ((kind === 'overlapping' || kind === 'touching') && errorMm - surfaceErrorMm > maxUncertaintyMm) {
    const clearanceMm = Math.min(0, distanceMm + surfaceErrorMm + poseErrorMm);
    return { clearanceMm, errorMm: Number.POSITIVE_INFINITY };
  }
  return { clearanceMm: distanceMm, errorMm: errorMm + poseErrorMm };
}

/**
 * The lower end of an error bar, for ranking clearances, mm. A depth without an upper bound is ranked by its proven
 * value.
 */
export const lowerEndMm = (clearanceMm: number, errorMm: number): number =>
  errorMm === Number.POSITIVE_INFINITY ? clearanceMm : clearanceMm - errorMm;
