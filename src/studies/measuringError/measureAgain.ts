import type { StudiedValue } from '../sensitivity/studiedInputs.ts';
import type { PairError } from './pairError.ts';

/** A value whose ± takes much of the doubt. */
export interface MeasureAgain {
  value: StudiedValue;
  /** Its part of the doubt of all pairs, mm. */
  doubtMm: number;
  /** Number of pairs in which it has a part. */
  pairs: number;
}

/** Largest number of values in the list. */
const MOST_VALUES = 10;

/**
 * The values to measure again: as few as take half of the doubt of all given pairs, at most `MOST_VALUES`, the largest
 * part first. The doubt of a pair is its worst case, or the linear one if that is not known. Each value's part of it is
 * its share in the sum of the losses through the slopes. A value's parts are added over the pairs.
 */
export function measureAgain(pairs: readonly PairError[]): {
  totalMm: number;
  values: readonly MeasureAgain[];
} {
  const found = new Map<StudiedValue, MeasureAgain>();
  let totalMm = 0;
  for (const { terms, worstCaseMm, linear } of pairs) {
    const sumMm = linear.worstMm - linear.slopeErrorMm;
    if (sumMm <= 0) continue;
    const doubtMm = worstCaseMm ?? sumMm;
    totalMm += doubtMm;
    for (const { value, lossMm } of terms) {
      if (lossMm === 0) continue;
      const before = found.get(value) ?? { value, doubtMm: 0, pairs: 0 };
      const partMm = (lossMm / sumMm) * doubtMm;
      found.set(value, { value, doubtMm: before.doubtMm + partMm, pairs: before.pairs + 1 });
    }
  }
  const ranked = [...found.values()].sort((one, other) => other.doubtMm - one.doubtMm);
  const values: MeasureAgain[] = [];
  let takenMm = 0;
  for (const one of ranked.slice(0, MOST_VALUES)) {
    if (takenMm >= totalMm / 2) break;
    values.push(one);
    takenMm += one.doubtMm;
  }
  return { totalMm, values };
}
