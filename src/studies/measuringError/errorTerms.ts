import type { PlusMinus } from '../../design/design.ts';
import type { Rate } from '../sensitivity/rate.ts';
import type { Effect } from '../sensitivity/sensitivity.ts';
import type { StudiedValue } from '../sensitivity/studiedInputs.ts';

/** What the ± of one value can take from the clearance of a pair. */
export interface ErrorTerm {
  value: StudiedValue;
  plusMinus: PlusMinus;
  /** The adverse end: -1 for the value less its ±, 1 for the value plus its ±, 0 if neither end is known to be adverse. */
  end: -1 | 0 | 1;
  /** Slope towards the adverse end, times the ±, mm; 0 or more. */
  lossMm: number;
  /** The error of that slope, times the ±, mm. */
  slopeErrorMm: number;
  /** Whether the slopes on both sides of the value are measured. */
  isMeasured: boolean;
}

/** The loss of clearance per unit of a value, mm per mm or degree, towards its adverse end. */
type Loss = Pick<ErrorTerm, 'end' | 'isMeasured'> & { perUnit: number; error: number };

/**
 * The adverse side of a rate: the one on which the clearance is lost faster. If the clearance grows on both sides, nothing
 * is lost, but an error may hide a loss. If one side is not measured, its slope is taken to be that of the other.
 */
function adverseLoss({ both, below, above }: Rate): Loss {
  const [low, high] = both === undefined ? [below ?? above, above ?? below] : [both, both];
  if (low === undefined || high === undefined) return { end: 0, perUnit: 0, error: 0, isMeasured: false };
  const [down, up] = [low.perUnit, -high.perUnit];
  const perUnit = Math.max(0, down, up);
  return {
    end: perUnit === 0 ? 0 : down >= up ? -1 : 1,
    perUnit,
    error: Math.max(perUnit, down + low.error, up + high.error) - perUnit,
    isMeasured: both !== undefined || (below !== undefined && above !== undefined),
  };
}

/** A term for each value that has a ± and changes a pair, the largest loss first. */
export const errorTerms = (effects: readonly Effect[]): ErrorTerm[] =>
  effects
    .flatMap(({ value, rate }): ErrorTerm[] => {
      const { plusMinus } = value.input;
      if (plusMinus === undefined) return [];
      const { end, perUnit, error, isMeasured } = adverseLoss(rate);
      const [lossMm, slopeErrorMm] = [perUnit * plusMinus.amount, error * plusMinus.amount];
      return [{ value, plusMinus, end, lossMm, slopeErrorMm, isMeasured }];
    })
    .sort((one, other) => other.lossMm - one.lossMm);

/** The sum of all losses: every value is at its adverse end at once. */
export const worstCaseSum = (losses: readonly number[]): number =>
  losses.reduce((sum, loss) => sum + loss, 0);

/** The root of the sum of the squares: for errors that are independent of each other. */
export const rootSumSquare = (losses: readonly number[]): number => Math.hypot(...losses);
