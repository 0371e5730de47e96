import type { Figures } from '../../../report/figures.ts';
import type { MeasuredPair } from '../../state/measuredPair.ts';

/** A clearance with its error; undefined if it is not finite. */
export const clearanceText = (found: MeasuredPair | undefined, figures: Figures): string | undefined =>
  found === undefined || !Number.isFinite(found.clearanceMm)
    ? undefined
    : figures.withError(found.clearanceMm, found.errorMm);

/**
 * Signed difference of the clearances at two poses; its error is the sum of both errors. Undefined if either clearance is
 * not finite or is a depth without an upper bound.
 */
export function differenceText(
  now: MeasuredPair | undefined,
  held: MeasuredPair | undefined,
  figures: Figures,
): string | undefined {
  if (now === undefined || held === undefined) return undefined;
  const more = now.clearanceMm - held.clearanceMm;
  const errorMm = now.errorMm + held.errorMm;
  if (!Number.isFinite(more) || !Number.isFinite(errorMm)) return undefined;
  return figures.signedWithError(more, errorMm);
}
