import type { ClearanceKind } from './clearance.ts';

/** A depth that the search leaves open by more than this, and by more than this share of itself, gets no upper bound. */
const MOST_OPEN_MM = 0.2;
const MOST_OPEN_SHARE = 0.05;

/** What a query found, as in `PairQuery`. */
interface Found {
  kind: ClearanceKind;
  distanceMm: number;
  errorMm: number;
  surfaceErrorMm: number;
}

/**
 * The clearance and its error as results give them, mm, with `poseErrorMm` for the pose itself. For a depth whose upper
 * bound is too far away to be of use, the error is Infinity and the clearance is a proven bound: the parts overlap at least
 * that deep, all errors taken off; 0 where not even contact is proven.
 */
export function reportedClearance(
  { kind, distanceMm, errorMm, surfaceErrorMm }: Found,
  poseErrorMm: number,
): { clearanceMm: number; errorMm: number } {
  const mostOpenMm = Math.max(MOST_OPEN_MM, -MOST_OPEN_SHARE * distanceMm);
  if ((kind === 'overlapping' || kind === 'touching') && errorMm - surfaceErrorMm > mostOpenMm) {
    const clearanceMm = Math.min(0, distanceMm + surfaceErrorMm + poseErrorMm);
    return { clearanceMm, errorMm: Number.POSITIVE_INFINITY };
  }
  return { clearanceMm: distanceMm, errorMm: errorMm + poseErrorMm };
}

/**
 * The lower end of an error bar, by which clearances are ranked, mm. A depth without an upper bound is ranked by what is
 * proven of it.
 */
export const lowerEndMm = (clearanceMm: number, errorMm: number): number =>
  errorMm === Number.POSITIVE_INFINITY ? clearanceMm : clearanceMm - errorMm;
