import type { Corner } from '../../design/schema.ts';
import type { FitInterval } from '../../studies/vary/borders.ts';
import { pairFails } from '../../studies/vary/pairTrial.ts';
import type { VariedCell } from '../../studies/vary/variedCell.ts';
import type { Study } from '../../studies/vary/vary.ts';
import { counted, type Figures } from '../figures.ts';
import { limitInWords, trialName } from './limitInWords.ts';

/**
 * What a study of one range found, a sentence or two for each run of values that fit: from where to where, and what is in
 * the way beyond. A border is told as the value that fits and the nearest one that was tried and does not.
 */
export function fitSentences({ axes, cells, intervals }: Study, corner: Corner, figures: Figures): string[] {
  const [{ title }] = axes;
  if (intervals === undefined) return [];
  if (intervals.length === 0)
    return [`${title}: none of the ${counted(cells.length, 'value')} tried fits.`, ...whateverItIs(cells)];
  return intervals.map((interval) =>
    [
      `${title} ${runOf(interval)} clears`,
      ...beyond('below', interval.below, corner, figures),
      ...beyond('above', interval.above, corner, figures),
    ]
      .join('; ')
      .concat('.'),
  );
}

/** The pairs that fail with every value that can be built: nothing is won from them here. */
function whateverItIs(cells: readonly VariedCell[]): string[] {
  const failing = cells
    .filter(({ tried }) => tried.problems.length === 0)
    .map(({ tried }) => tried.pairs.filter(pairFails).map(trialName));
  const always = (failing[0] ?? []).filter((name) => failing.every((names) => names.includes(name)));
  return always.length === 0 ? [] : [`Whatever it is, too near stay: ${always.join(', ')}.`];
}

const runOf = ({ first, last }: FitInterval): string =>
  first.label === last.label ? first.label : `${first.label} to ${last.label}`;

function beyond(
  side: 'below' | 'above',
  cell: VariedCell | undefined,
  corner: Corner,
  figures: Figures,
): string[] {
  if (cell === undefined) return [];
  return [`${side} it, tried at ${cell.values[0].label}, ${limitInWords(cell.tried, corner, figures)}`];
}

/** What the answers of a study hold for, and what they do not. */
export function scopeSentences(study: Study): string[] {
  const { cells, intervals, hubHeld } = study;
  const moves = cells.some(({ tried }) => tried.pairs.some((pair) => pair.moves));
  return [
    judgedInWords(study),
    ...(hubHeld
      ? [
          'The file leaves it to its wheel where the hub is (suspension.hubFace): the hub is held where the wheel of the file puts it.',
        ]
      : []),
    ...(moves
      ? [
          'What fits keeps every target at all travel and steering, at the steps and, by proof, between them, with all errors taken off.',
        ]
      : []),
    ...(intervals === undefined
      ? []
      : [
          'Only the values told were tried; nothing is said of what lies between two of them: take a shorter step where something narrow may.',
        ]),
  ];
}

function judgedInWords({ axes, pairCount, concernedCount }: Study): string {
  const titles = axes.map(({ title }) => title).join(' and ');
  const change = axes.some(({ part }) => part !== undefined) ? 'concern' : 'change with';
  const all = counted(pairCount, 'pair');
  if (concernedCount === 0) return `Of ${all} that are checked none changes with ${titles}.`;
  if (concernedCount === pairCount) return `All of ${all} ${change} ${titles} and are judged.`;
  return `${concernedCount} of ${all} ${change} ${titles} and are judged; the others have the same answer whatever it is, and are left to a sweep.`;
}
