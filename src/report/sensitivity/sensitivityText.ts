import type { Corner } from '../../design/schema.ts';
import type { Rate, Slope } from '../../studies/sensitivity/rate.ts';
import type { Effect, PairSensitivity, Sensitivity } from '../../studies/sensitivity/sensitivity.ts';
import type { StudiedValue } from '../../studies/sensitivity/studiedInputs.ts';
import { pairLabel } from '../../sweep/pair.ts';
import { visible } from '../../units/plainText.ts';
import { stateInWords } from '../content.ts';
import { counted, decimal, type Figures, MM_PER_UNIT } from '../figures.ts';
import { valueInWords } from '../inputSection.ts';
import { poseInWords } from '../pose.ts';
import { textTable } from '../varied/variedTable.ts';

/** Decimals of a slope per length and per degree, and the scale of their unit. */
const DECIMALS = { length: 2, angle: 3 } as const;

/** "+0.61 ± 0.18", the error rounded up. */
function slopeInWords({ perUnit, error }: Slope, kind: 'length' | 'angle', figures: Figures): string {
  const per = kind === 'length' ? 1 : MM_PER_UNIT[figures.unit];
  const decimals = DECIMALS[kind];
  const step = 10 ** decimals;
  const shown = Math.round((perUnit / per) * step) / step;
  // The error bar covers the rounding.
  const bar = Math.ceil((error / per + Math.abs(perUnit / per - shown)) * step - 1e-6) / step;
  return `${decimal(shown, decimals, true)} ± ${decimal(Math.max(bar, 1 / step), decimals)}`;
}

function rateInWords({ both, below, above }: Rate, kind: 'length' | 'angle', figures: Figures): string {
  if (both !== undefined) return slopeInWords(both, kind, figures);
  const side = (slope: Slope | undefined) =>
    slope === undefined ? 'not known' : slopeInWords(slope, kind, figures);
  return `${side(below)} below the value, ${side(above)} above it`;
}

/** Whether an effect is larger than its error on a side. */
export const isKnown = ({ rate: { both, below, above } }: Effect): boolean =>
  (both === undefined ? [below, above] : [both]).some(
    (slope) => slope !== undefined && Math.abs(slope.perUnit) > slope.error,
  );

/** A table of effects: value, in the file, unit, slope. */
export function effectTable(effects: readonly Effect[], figures: Figures): string[] {
  const rows = effects.map(({ value, rate }) => [
    value.field.name,
    `${valueInWords(value.input, figures)}${value.input.assumed ? ', assumed' : ''}`,
    value.field.kind === 'length' ? `${figures.unit} per ${figures.unit}` : `${figures.unit} per degree`,
    rateInWords(rate, value.field.kind, figures),
  ]);
  return rows.length === 0
    ? []
    : textTable(['Value', 'In the file', 'Unit', 'Change of the clearance'], rows, new Set());
}

/** A pair with the values that change its clearance by more than the error, the largest slope first. */
function pairLines(
  { setup }: Sensitivity,
  { finding, worst, effects }: PairSensitivity,
  corner: Corner,
  figures: Figures,
): string[] {
  const { solids, pairs } = setup;
  const pair = pairs[finding.pair];
  const at = pair.moves ? poseInWords(corner, worst, figures) : 'every pose';
  const known = effects.filter(isKnown);
  const rest = effects.length - known.length;
  return [
    `${pairLabel(solids, pair)}: ${stateInWords(finding.state)}, ${figures.withErrorAndUnit(worst.clearanceMm, worst.errorMm)} at ${at}`,
    ...effectTable(known, figures),
    ...(rest > 0
      ? [
          `${counted(rest, 'other value changes', 'other values change')} it by less than the error, or not at all.`,
        ]
      : []),
  ].map(visible);
}

/** A line for each value beside which the corner cannot be built. */
export const notBuiltLines = (values: readonly StudiedValue[]): string[] =>
  values
    .filter(({ problems }) => problems.length > 0)
    .map(({ field, problems: [{ message }] }) =>
      visible(`${field.name}: the corner cannot be built one step beside this value. ${message}`),
    );

/** The first `most` pairs of a study, each with the values that change its clearance. */
export function sensitivityLines(study: Sensitivity, most: number, figures: Figures): string[] {
  const { corner } = study.setup.design;
  const shown = study.pairs.slice(0, most);
  const more = study.pairs.length - shown.length;
  return [
    'Change of the least clearance per unit of one value. A plus sign: a larger value gives more clearance.',
    ...shown.flatMap((pair) => ['', ...pairLines(study, pair, corner, figures)]),
    '',
    ...(more > 0 ? [`${counted(more, 'more pair is', 'more pairs are')} not far: --json lists all.`] : []),
    ...(study.unknown.length > 0
      ? [`Unknown, because the clearance or depth is not known: ${counted(study.unknown.length, 'pair')}.`]
      : []),
    ...notBuiltLines(study.values),
    'A slope holds near the value only. Sweep the changed corner before you cut.',
  ];
}
