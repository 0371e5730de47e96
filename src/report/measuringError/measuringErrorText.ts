import type { ErrorTerm } from '../../studies/measuringError/errorTerms.ts';
import type { MeasuringError } from '../../studies/measuringError/measuringError.ts';
import type { PairError } from '../../studies/measuringError/pairError.ts';
import type { StudiedValue } from '../../studies/sensitivity/studiedInputs.ts';
import { pairLabel } from '../../sweep/pair.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { visible } from '../../units/plainText.ts';
import { stateInWords } from '../content.ts';
import { counted, type Figures } from '../figures.ts';
import { plusMinusInWords, valueInWords } from '../inputSection.ts';
import { effectTable, isKnown } from '../sensitivity/sensitivityText.ts';
import { textTable } from '../varied/variedTable.ts';

/** Largest number of values listed for a pair, unless it is the only one. */
const MOST_VALUES = 5;

function stateOf({ finding, isWithin }: PairError): string {
  const state = stateInWords(finding.state);
  if (isWithin === undefined) return `${state}, measuring error unknown`;
  return isWithin ? `${state}, within measuring error` : state;
}

const labelOf = ({ solids, pairs }: Setup, { finding }: PairError): string =>
  pairLabel(solids, pairs[finding.pair]);

/** A line for each pair: state, clearance with its mesh error, margin, and both measuring errors. */
const pairTable = (setup: Setup, pairs: readonly PairError[], figures: Figures): string[] =>
  textTable(
    ['Pair', 'State', 'Clearance', 'Margin at least', 'Worst case', 'Root sum square'],
    pairs.map((pair) => [
      labelOf(setup, pair),
      stateOf(pair),
      figures.withError(pair.worst.clearanceMm, pair.worst.errorMm),
      figures.least(pair.leastMarginMm),
      pair.worstCaseMm === undefined ? 'unknown' : figures.bound(pair.worstCaseMm),
      figures.bound(pair.rssMm),
    ]),
    new Set([2, 3, 4, 5]),
  );

const valueCells = ({ field, input }: StudiedValue, figures: Figures): string[] => [
  field.name,
  valueInWords(input, figures),
  plusMinusInWords(input, figures),
  input.plusMinus?.from === 'measuredTo' ? 'measuredTo' : 'typed with it',
];
const VALUE_TITLES = ['Value', 'In the file', '±', '± from'];

const END = { '-1': 'smaller', 0: '', 1: 'larger' } as const;

function termTable(terms: readonly ErrorTerm[], figures: Figures): string[] {
  return textTable(
    [...VALUE_TITLES, 'Takes', 'If it is'],
    terms.map(({ value, lossMm, end, isMeasured }) => [
      ...valueCells(value, figures),
      isMeasured ? figures.bound(lossMm) : 'unknown',
      END[end],
    ]),
    new Set([4]),
  );
}

/** How the worst case of a pair was found. */
function verifiedInWords({ linear, verified, verifiedLossMm }: PairError, figures: Figures): string[] {
  const bySlopes = `${figures.boundWithUnit(linear.worstMm)} by the slopes, of which ${figures.boundWithUnit(linear.slopeErrorMm)} is the error of the slopes`;
  if (verified === undefined) return [];
  if (verified.kind === 'measured') {
    const lossMm = verifiedLossMm ?? 0;
    const change =
      lossMm > 0 ? `has ${figures.boundWithUnit(lossMm)} less clearance` : 'has no less clearance';
    return [
      `Worst case: ${bySlopes}. The corner with every value at its adverse end ${change}: ${stateInWords(verified.state)}.`,
    ];
  }
  if (verified.kind === 'unknown')
    return [
      `Worst case: ${bySlopes}. It is not checked by the corner with every value at its adverse end: ${verified.why}.`,
    ];
  return [
    `Worst case: ${bySlopes}. The corner with every value at its adverse end cannot be built:`,
    ...verified.problems.map(({ path, message }) => `  ${path === '' ? '' : `${path}: `}${message}`),
  ];
}

/** A pair with the values whose ± takes from it, and the slopes of its assumed values. */
function pairLines(setup: Setup, pair: PairError, most: number, figures: Figures): string[] {
  const taking = pair.terms.filter(
    ({ lossMm, slopeErrorMm, isMeasured }) => lossMm > slopeErrorMm || !isMeasured,
  );
  const shown = taking.slice(0, most);
  const rest = pair.terms.length - taking.length;
  const assumed = pair.assumed.filter(isKnown);
  const more = taking.length - shown.length;
  return [
    `${labelOf(setup, pair)}: ${stateOf(pair)}`,
    ...verifiedInWords(pair, figures),
    ...(shown.length === 0 ? [] : termTable(shown, figures)),
    ...(more > 0 ? [`${counted(more, 'more value takes', 'more values take')} less.`] : []),
    ...(rest > 0
      ? [
          `${counted(rest, 'other value takes', 'other values take')} less than the error of the slope, or nothing.`,
        ]
      : []),
    ...(pair.exactCount > 0
      ? [`${counted(pair.exactCount, 'given value has', 'given values have')} no ± and count as exact.`]
      : []),
    ...(assumed.length > 0
      ? [
          'Assumed values have no ±. Change of this clearance with each:',
          ...effectTable(assumed.slice(0, most), figures),
        ]
      : []),
  ].map(visible);
}

/** The values to measure again. */
function againLines({ again, pairs }: MeasuringError, figures: Figures): string[] {
  if (again.values.length === 0) return [];
  const takenMm = again.values.reduce((sum, { doubtMm }) => sum + doubtMm, 0);
  const share = Math.round((100 * takenMm) / again.totalMm);
  return [
    `Measure these again: their ± makes ${share} % of the worst cases of ${counted(pairs.length, 'pair')}, added up.`,
    ...textTable(
      [...VALUE_TITLES, 'Adds', 'Pairs'],
      again.values.map(({ value, doubtMm, pairs: count }) => [
        ...valueCells(value, figures),
        figures.bound(doubtMm),
        `${count}`,
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
  const { pairs, sensitivity } = study;
  const { setup, values, unknown } = sensitivity;
  const hasPlusMinus = values.some(({ input }) => input.plusMinus !== undefined);
  const listed = pairs.slice(0, most);
  const more = pairs.length - listed.length;
  const mostValues = pairs.length === 1 ? Number.POSITIVE_INFINITY : MOST_VALUES;
  return [
    `How much less each clearance can be if measured values are off by their ±, in ${figures.unitName}.`,
    'The ± after a clearance is its mesh error. The margin has the mesh error taken off, but no measuring error.',
    'Worst case: every value is at its adverse end. Root sum square: the errors are independent of each other, and the slopes',
    'hold over the whole ±.',
    ...(hasPlusMinus || values.length === 0
      ? []
      : [
          'No measured value of this file has a ±. Type it with a value, "25 mm ±0.5", or give measuredTo for all of them.',
        ]),
    '',
    ...(pairs.length === 0 ? ['No pair is near.'] : pairTable(setup, pairs, figures).map(visible)),
    ...listed.flatMap((pair) => ['', ...pairLines(setup, pair, mostValues, figures)]),
    '',
    ...(more > 0 ? [`--pair A:B or --json lists the values of the other ${counted(more, 'pair')}.`, ''] : []),
    ...againLines(study, figures),
    ...(unknown.length > 0
      ? [`Unknown, because the clearance or depth is not known: ${counted(unknown.length, 'pair')}.`]
      : []),
  ];
}
