import type { ErrorTerm } from '../../studies/measuringError/errorTerms.ts';
import type { MeasuringError } from '../../studies/measuringError/measuringError.ts';
import type { PairError } from '../../studies/measuringError/pairError.ts';
import type { SolidIds } from '../../studies/sensitivity/sensitivity.ts';
import type { StudiedValue } from '../../studies/sensitivity/studiedInputs.ts';
import { pairLabel } from '../../sweep/pair.ts';
import { stateInWords } from '../content.ts';
import { counted, type Figures } from '../figures.ts';
import { plusMinusInWords, valueInWords } from '../inputSection.ts';
import { type EffectInWords, effectInWords, isKnown } from '../sensitivity/effectInWords.ts';

/** A value with a ±, as text. */
interface ValueInWords {
  /** Path of the value in the file. */
  path: string;
  name: string;
  inFile: string;
  plusMinus: string;
  /** Where the ± is from. */
  from: string;
}

/** What the ± of a value takes from a pair, as text. */
interface TermInWords extends ValueInWords {
  takes: string;
  /** The adverse end: "larger", "smaller", or empty. */
  end: string;
}

/** The measuring error of a pair, as text. Figures have no unit. */
export interface PairErrorInWords {
  /** Ids of its two solids. */
  between: readonly [string, string];
  label: string;
  state: string;
  /** See `PairError`. */
  isWithin: boolean | undefined;
  clearance: string;
  /** Least margin at every pose. */
  margin: string;
  worstCase: string;
  rootSumSquare: string;
  /** Whether a value that changes the pair has a ±; without one, the figures above are 0. */
  hasPlusMinus: boolean;
  /** Number of given values that change the pair and have no ±: they count as exact. */
  exactCount: number;
  /** How the worst case was found: sentences. */
  verified: readonly string[];
  /** The values whose ± takes more than the error of the slope, the largest loss first. */
  taking: readonly TermInWords[];
  /** Sentences about the values that are in no table. */
  others: readonly string[];
  /** Assumed values that change the clearance by more than the error. */
  assumed: readonly EffectInWords[];
  /** Every value that does, measured or not. */
  effects: readonly EffectInWords[];
}

/** A value to measure again, as text. */
interface AgainInWords extends ValueInWords {
  adds: string;
  pairs: string;
}

/** A study of the measuring error, as text. */
export interface MeasuringErrorInWords {
  /** The pairs that were studied, by the ids of their solids; undefined if all were. */
  among: readonly SolidIds[] | undefined;
  /** Whether a value of the file has a ±. */
  hasPlusMinus: boolean;
  /** Number of clear pairs whose margin is less than their worst case. */
  withinCount: number;
  pairs: readonly PairErrorInWords[];
  again: { title: string; values: readonly AgainInWords[] } | undefined;
  /** Sentences about pairs that are in no table. */
  others: readonly string[];
}

/** What the three figures mean. */
export const MEASURING_ERROR_MEANS = [
  'The ± after a clearance is its mesh error. The margin has the mesh error taken off, but no measuring error.',
  'Worst case: every value is at its adverse end. Root sum square: the errors are independent of each other, and the slopes hold over the whole ±.',
] as const;

export const NO_PLUS_MINUS =
  'No measured value of this file has a ±. Type it with a value, "25 mm ±0.5", or give measuredTo for all of them.';

/** A study of the measuring error as text, in the unit of `figures`. */
export function measuringErrorInWords(study: MeasuringError, figures: Figures): MeasuringErrorInWords {
  const { pairs, sensitivity } = study;
  const { values, unknown, among } = sensitivity;
  return {
    among,
    hasPlusMinus: values.length === 0 || values.some(({ input }) => input.plusMinus !== undefined),
    withinCount: pairs.filter(({ isWithin }) => isWithin === true).length,
    pairs: pairs.map((pair) => pairInWords(study, pair, figures)),
    again: againInWords(study, figures),
    others:
      unknown.length > 0
        ? [`Unknown, because the clearance or depth is not known: ${counted(unknown.length, 'pair')}.`]
        : [],
  };
}

/** Sentence about the number of clear pairs whose margin is less than their worst case; none if there is none. */
export const withinInWords = (study: MeasuringErrorInWords | undefined): string[] =>
  study === undefined || study.withinCount === 0
    ? []
    : [
        `${study.among === undefined ? '' : `Of ${counted(study.pairs.length, 'studied pair')}, `}${counted(study.withinCount, 'clear pair is', 'clear pairs are')} within measuring error: see Measuring error.`,
      ];

/** The measuring error of a pair, by the ids of its two solids; undefined if it was not studied. */
export const pairErrorOf = (
  study: MeasuringErrorInWords | undefined,
  a: string,
  b: string,
): PairErrorInWords | undefined => study?.pairs.find(({ between }) => between[0] === a && between[1] === b);

/** "± 0.053 in, without the ± of 4 values": the worst case of a pair, and the number of values that count as exact. */
export function worstCaseInWords(
  { hasPlusMinus, worstCase, exactCount }: PairErrorInWords,
  { unit }: Figures,
): string {
  const without = `the ± of ${counted(exactCount, 'value')}`;
  if (!hasPlusMinus) return exactCount === 0 ? 'none' : `unknown: ${without} is not given`;
  const worst = worstCase === 'unknown' ? worstCase : `± ${worstCase} ${unit}`;
  return exactCount === 0 ? worst : `${worst}, without ${without}`;
}

/** Whether a pair, by the ids of its two solids, is clear with a margin that is less than its worst case. */
export const isWithinOf = (study: MeasuringErrorInWords | undefined, a: string, b: string): boolean =>
  pairErrorOf(study, a, b)?.isWithin === true;

/** "clear, within measuring error" */
function stateWithMark({ finding, isWithin }: Pick<PairError, 'finding' | 'isWithin'>): string {
  const state = stateInWords(finding.state);
  if (isWithin === undefined) return `${state}, measuring error unknown`;
  return isWithin ? `${state}, within measuring error` : state;
}

const END = { '-1': 'smaller', 0: '', 1: 'larger' } as const;

function valueWords({ field, input }: StudiedValue, figures: Figures): ValueInWords {
  return {
    path: input.path,
    name: field.name,
    inFile: valueInWords(input, figures),
    plusMinus: plusMinusInWords(input, figures),
    from: input.plusMinus?.from === 'measuredTo' ? 'measuredTo' : 'typed with it',
  };
}

const isTaking = ({ lossMm, slopeErrorMm, isMeasured }: ErrorTerm): boolean =>
  lossMm > slopeErrorMm || !isMeasured;

function pairInWords({ sensitivity }: MeasuringError, pair: PairError, figures: Figures): PairErrorInWords {
  const { solids, pairs } = sensitivity.setup;
  const { finding, worst, terms, assumed, exactCount } = pair;
  const { a, b } = pairs[finding.pair];
  const taking = terms.filter(isTaking);
  const rest = terms.length - taking.length;
  const effects = sensitivity.pairs.find((one) => one.finding === finding)?.effects ?? [];
  return {
    between: [solids[a].id, solids[b].id],
    label: pairLabel(solids, pairs[finding.pair]),
    state: stateWithMark(pair),
    isWithin: pair.isWithin,
    clearance: figures.withError(worst.clearanceMm, worst.errorMm),
    margin: figures.least(pair.leastMarginMm),
    worstCase: pair.worstCaseMm === undefined ? 'unknown' : figures.bound(pair.worstCaseMm),
    rootSumSquare: figures.bound(pair.rssMm),
    hasPlusMinus: terms.length > 0,
    exactCount,
    verified: verifiedInWords(pair, figures),
    taking: taking.map(({ value, lossMm, end, isMeasured }) => ({
      ...valueWords(value, figures),
      takes: isMeasured ? figures.bound(lossMm) : 'unknown',
      end: END[end],
    })),
    others: [
      ...(rest > 0
        ? [
            `${counted(rest, 'other value takes', 'other values take')} less than the error of the slope, or nothing.`,
          ]
        : []),
      ...(exactCount > 0
        ? [`${counted(exactCount, 'given value has', 'given values have')} no ± and count as exact.`]
        : []),
    ],
    assumed: assumed.filter(isKnown).map((effect) => effectInWords(effect, figures)),
    effects: effects.filter(isKnown).map((effect) => effectInWords(effect, figures)),
  };
}

/** How the worst case of a pair was found. */
function verifiedInWords({ linear, verified, verifiedLossMm }: PairError, figures: Figures): string[] {
  if (verified === undefined) return [];
  const bySlopes = `Worst case: ${figures.boundWithUnit(linear.worstMm)} by the slopes, of which ${figures.boundWithUnit(linear.slopeErrorMm)} is the error of the slopes.`;
  if (verified.kind === 'measured') {
    const lossMm = verifiedLossMm ?? 0;
    const change =
      lossMm > 0 ? `has ${figures.boundWithUnit(lossMm)} less clearance` : 'has no less clearance';
    return [
      `${bySlopes} The corner with every value at its adverse end ${change}: ${stateInWords(verified.state)}.`,
    ];
  }
  if (verified.kind === 'unknown')
    return [
      `${bySlopes} It is not checked by the corner with every value at its adverse end: ${verified.why}.`,
    ];
  return [
    `${bySlopes} The corner with every value at its adverse end cannot be built:`,
    ...verified.problems.map(({ path, message }) => `  ${path === '' ? '' : `${path}: `}${message}`),
  ];
}

function againInWords({ again, pairs }: MeasuringError, figures: Figures): MeasuringErrorInWords['again'] {
  if (again.values.length === 0) return undefined;
  const takenMm = again.values.reduce((sum, { doubtMm }) => sum + doubtMm, 0);
  const share = Math.round((100 * takenMm) / again.totalMm);
  return {
    title: `Measure these again: their ± makes ${share} % of the worst cases of ${counted(pairs.length, 'pair')}, added up.`,
    values: again.values.map(({ value, doubtMm, pairs: count }) => ({
      ...valueWords(value, figures),
      adds: figures.bound(doubtMm),
      pairs: `${count}`,
    })),
  };
}
