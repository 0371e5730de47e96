import type { Figures } from '../../report/figures.ts';
import type { MeasuredPair } from '../stores/measuredPair.ts';

/** A clearance with its error; nothing where it has no number. */
export const clearanceText = (found: MeasuredPair | undefined, figures: Figures): string | undefined =>
  found === undefined || !Number.isFinite(found.clearanceMm)
    ? undefined
    : figures.withError(found.clearanceMm, found.errorMm);

/**
 * How much more clearance there is at one pose than at another, with its sign; the errors of both add up. Undefined where
 * either has no number, or is a depth without an upper bound.
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
