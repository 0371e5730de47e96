import type { MeasuringError } from '../../studies/measuringError/measuringError.ts';
import { visible } from '../../units/plainText.ts';
import { counted, type Figures } from '../figures.ts';
import { effectTable } from '../sensitivity/sensitivityText.ts';
import { textTable } from '../varied/variedTable.ts';
import {
  MEASURING_ERROR_MEANS,
  type MeasuringErrorInWords,
  measuringErrorInWords,
  NO_PLUS_MINUS,
  type PairErrorInWords,
} from './measuringErrorInWords.ts';

/** Largest number of values listed for a pair, unless it is the only one. */
const MOST_VALUES = 5;

/** A line for each pair: state, clearance with its mesh error, margin, and both measuring errors. */
const pairTable = (pairs: readonly PairErrorInWords[]): string[] =>
  textTable(
    ['Pair', 'State', 'Clearance', 'Margin at least', 'Worst case', 'Root sum square'],
    pairs.map(({ label, state, clearance, margin, worstCase, rootSumSquare }) => [
      label,
      state,
      clearance,
      margin,
      worstCase,
      rootSumSquare,
    ]),
    new Set([2, 3, 4, 5]),
  );

const VALUE_TITLES = ['Value', 'In the file', '±', '± from'];

/** A pair with the values whose ± takes from it, and the slopes of its assumed values. */
function pairLines(pair: PairErrorInWords, most: number): string[] {
  const { label, state, verified, taking, others, assumed } = pair;
  const more = taking.length - Math.min(most, taking.length);
  return [
    `${label}: ${state}`,
    ...verified,
    ...(taking.length === 0
      ? []
      : textTable(
          [...VALUE_TITLES, 'Takes', 'If it is'],
          taking
            .slice(0, most)
            .map(({ name, inFile, plusMinus, from, takes, end }) => [
              name,
              inFile,
              plusMinus,
              from,
              takes,
              end,
            ]),
          new Set([4]),
        )),
    ...(more > 0 ? [`${counted(more, 'more value takes', 'more values take')} less.`] : []),
    ...others,
    ...(assumed.length > 0
      ? [
          'Assumed values have no ±. Change of this clearance with each:',
          ...effectTable(assumed.slice(0, most)),
        ]
      : []),
  ].map(visible);
}

/** The values to measure again. */
function againLines(again: MeasuringErrorInWords['again']): string[] {
  if (again === undefined) return [];
  return [
    again.title,
    ...textTable(
      [...VALUE_TITLES, 'Adds', 'Pairs'],
      again.values.map(({ name, inFile, plusMinus, from, adds, pairs }) => [
        name,
        inFile,
        plusMinus,
        from,
        adds,
        pairs,
      ]),
      new Set([4, 5]),
    ).map(visible),
    '',
  ];
}

/**
 * A study as lines: a table of the pairs, the first `most` pairs with their values, and the values to measure again. A study
 * of one pair has all its values.
 */
export function measuringErrorLines(study: MeasuringError, most: number, figures: Figures): string[] {
  const { pairs, hasPlusMinus, again, others } = measuringErrorInWords(study, figures);
  const listed = pairs.slice(0, most);
  const more = pairs.length - listed.length;
  const mostValues = pairs.length === 1 ? Number.POSITIVE_INFINITY : MOST_VALUES;
  return [
    `How much less each clearance can be if measured values are off by their ±, in ${figures.unitName}.`,
    ...MEASURING_ERROR_MEANS,
    ...(hasPlusMinus ? [] : [NO_PLUS_MINUS]),
    '',
    ...(pairs.length === 0 ? ['No pair is near.'] : pairTable(pairs).map(visible)),
    ...listed.flatMap((pair) => ['', ...pairLines(pair, mostValues)]),
    '',
    ...(more > 0 ? [`--pair A:B or --json lists the values of the other ${counted(more, 'pair')}.`, ''] : []),
    ...againLines(again),
    ...others,
  ];
}
