import type { ComparedGap, GapEffect, MockupStudy, SuspectValue } from '../../studies/mockup/mockup.ts';
import type { Rate } from '../../studies/sensitivity/rate.ts';
import { counted, type Figures, signedAngle } from '../figures.ts';
import { valueInWords } from '../inputSection.ts';
import { poseInWords } from '../pose.ts';

/** Largest number of suspect values, and of values without a ± for each gap, that are listed. */
const MOST_SUSPECTS = 6;
const MOST_OTHERS = 4;

/** Slopes hold near a value only: larger changes of a single value are not listed, mm and degrees. */
const MOST_CHANGE = { length: 10, angle: 2 } as const;

/** Suspect values that explain a smaller share of every difference are not listed. */
const LEAST_SHARE = 0.02;

/** A gap of the mock-up in words. */
export interface GapRow {
  pair: string;
  pose: string;
  predicted: string;
  measured: string;
  difference: string;
  measuringError: string;
  result: string;
  who: string;
  note: string;
}

const RESULTS = { true: 'agrees', false: '✕ differs', undefined: '? unknown' } as const;

/** The gaps, in the file's order. */
export const gapRows = ({ design, gaps }: MockupStudy, figures: Figures): GapRow[] =>
  gaps.map(
    ({ entry, label, moves, pose, measured, predicted, differenceMm, measuringErrorMm, isExplained }) => ({
      pair: label,
      pose: moves ? poseInWords(design.corner, pose, figures) : 'any pose',
      predicted: predicted === undefined ? 'not known' : figures.withError(predicted.mm, predicted.errorMm),
      measured:
        measured.errorMm === 0
          ? figures.given(measured.mm)
          : figures.withError(measured.mm, measured.errorMm),
      difference:
        predicted === undefined || differenceMm === undefined
          ? ''
          : figures.signedWithError(differenceMm, measured.errorMm + predicted.errorMm),
      measuringError: predicted === undefined ? '' : `± ${figures.bound(measuringErrorMm)}`,
      result: RESULTS[`${isExplained}`],
      who: [entry.on, entry.by].filter((text) => text !== undefined).join(', '),
      note: entry.note ?? '',
    }),
  );

/** Number of gaps that differ and of those without a prediction, in a sentence. */
export function gapsInWords({ gaps }: MockupStudy): string {
  const differ = gaps.filter(({ isExplained }) => isExplained === false).length;
  const unknown = gaps.filter(({ isExplained }) => isExplained === undefined).length;
  const [agreeing, all] = [gaps.length - differ - unknown, counted(gaps.length, 'measured gap')];
  return [
    `${all}: ${agreeing} ${agreeing === 1 ? 'agrees' : 'agree'} with the computed gap within mesh error and measuring error`,
    ...(differ > 0 ? [`${differ} ${differ === 1 ? 'differs' : 'differ'}`] : []),
    ...(unknown > 0 ? [`${unknown} cannot be compared`] : []),
  ]
    .join(', ')
    .concat('.');
}

/** An amount of a value's own quantity with its sign and unit. */
const amountInWords = (amount: number, kind: 'length' | 'angle', figures: Figures): string =>
  kind === 'angle' ? signedAngle(amount) : `${figures.signedFine(amount)} ${figures.unit}`;

/** A row for each suspect value: name, value in the file, most probable change, and its effect on each differing gap. */
export function suspectRows({ gaps, suspects }: MockupStudy, figures: Figures): string[][] {
  const differing = gaps.filter(({ isExplained }) => isExplained === false);
  const isListed = ({ effectMm }: SuspectValue) =>
    differing.some(
      ({ index, differenceMm = 0 }) =>
        Math.abs(effectMm.get(index) ?? 0) >= LEAST_SHARE * Math.abs(differenceMm),
    );
  return suspects
    .filter(isListed)
    .slice(0, MOST_SUSPECTS)
    .map(({ value, change, effectMm }) => [
      value.field.name,
      valueInWords(value.input, figures),
      amountInWords(change, value.field.kind, figures),
      differing.map(({ index }) => figures.signedFine(effectMm.get(index) ?? 0)).join(', '),
    ]);
}

/** For each gap that differs: values without a ±, any one of which would explain it alone. */
export function othersInWords({ gaps }: MockupStudy, figures: Figures): string[] {
  return gaps.flatMap((gap) => {
    if (gap.isExplained !== false) return [];
    const found = gap.effects
      .filter(({ value }) => value.input.plusMinus === undefined)
      .flatMap((effect) => aloneInWords(gap, effect, figures))
      .slice(0, MOST_OTHERS);
    return found.length === 0
      ? []
      : [`${gap.label}: values without a ± that would explain it, each alone: ${found.join('; ')}.`];
  });
}

/** The change of a value that explains a gap alone, if its slope is known to be large enough. */
function aloneInWords(
  { differenceMm = 0 }: ComparedGap,
  { value, rate }: GapEffect,
  figures: Figures,
): string[] {
  const slope = knownSlope(rate);
  const { name, kind } = value.field;
  if (slope === undefined || Math.abs(differenceMm / slope) > MOST_CHANGE[kind]) return [];
  return [`${name} ${amountInWords(differenceMm / slope, kind, figures)}`];
}

/** The slope on both sides where it is larger than its error. */
const knownSlope = ({ both }: Rate): number | undefined =>
  both !== undefined && Math.abs(both.perUnit) > both.error ? both.perUnit : undefined;

/** Sentence on what the suspect values mean. */
export const SUSPECTS_MEAN =
  'Measure these values again. Each change is the most probable one: the least squares of all changes and of what is left of the differences, each in units of its ±. No value is changed.';
