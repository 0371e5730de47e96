import type { Corner } from '../../design/schema.ts';
import type { PairSensitivity, Sensitivity } from '../../studies/sensitivity/sensitivity.ts';
import type { StudiedValue } from '../../studies/sensitivity/studiedInputs.ts';
import { pairLabel } from '../../sweep/pair.ts';
import { visible } from '../../units/plainText.ts';
import { stateInWords } from '../content.ts';
import { counted, type Figures } from '../figures.ts';
import { poseInWords } from '../pose.ts';
import { textTable } from '../varied/variedTable.ts';
import { type EffectInWords, effectInWords, isKnown } from './effectInWords.ts';

/** A table of effects: value, in the file, unit, slope. */
export function effectTable(effects: readonly EffectInWords[]): string[] {
  const rows = effects.map(({ name, inFile, unit, change }) => [name, inFile, unit, change]);
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
    ...effectTable(known.map((effect) => effectInWords(effect, figures))),
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
