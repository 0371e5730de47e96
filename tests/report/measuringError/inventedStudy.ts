import type {
  MeasuringErrorInWords,
  PairErrorInWords,
} from '../../../src/report/measuringError/measuringErrorInWords.ts';
import { spotIds } from '../../../src/report/pictures.ts';
import { reportInput } from '../fixture.ts';

const pairError = (
  between: readonly [string, string],
  changes: Partial<PairErrorInWords> = {},
): PairErrorInWords => ({
  between,
  label: between.join(' ↔ '),
  state: 'clear',
  isWithin: false,
  clearance: '5.0 ± 0.1',
  margin: '2.0',
  worstCase: '0.70',
  rootSumSquare: '0.40',
  hasPlusMinus: true,
  exactCount: 0,
  verified: [],
  taking: [],
  others: [],
  assumed: [],
  effects: [
    {
      path: 'parts[0].width',
      name: 'wheel.width',
      inFile: '8 in',
      change: '+1.00 ± 0.10',
      unit: 'mm per mm',
    },
  ],
  ...changes,
});

/** A study of the tightest pairs of the invented corner; `changes`: one for each pair that was measured. */
export function inventedStudy(
  changes: readonly Partial<PairErrorInWords>[],
  study: Partial<MeasuringErrorInWords> = {},
): MeasuringErrorInWords {
  const among = spotIds(reportInput());
  return {
    among,
    hasPlusMinus: true,
    withinCount: 0,
    pairs: among.slice(0, changes.length).map((ids, k) => pairError(ids, changes[k])),
    again: undefined,
    others: [],
    ...study,
  };
}
