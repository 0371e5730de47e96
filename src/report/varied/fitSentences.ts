import type { Corner } from '../../design/schema.ts';
import type { FitInterval } from '../../studies/vary/borders.ts';
import type { VariedCell } from '../../studies/vary/variedCell.ts';
import type { Study } from '../../studies/vary/vary.ts';
import { counted, type Figures } from '../figures.ts';
import { limitsInWords } from '../limitRows.ts';
import { type Obstacle, obstacleName, obstacleState, obstaclesOf, reasonInWords } from './obstacles.ts';

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
      `${title}: ${runOf(interval)} clears`,
      ...beyond('below', interval.below, corner, figures),
      ...beyond('above', interval.above, corner, figures),
    ]
      .join('; ')
      .concat('.'),
  );
}

/** What fails with every value that can be built, pairs and then joints and dampers: nothing is won from them here. */
function whateverItIs(cells: readonly VariedCell[]): string[] {
  const failing = cells
    .filter(({ tried }) => tried.problems.length === 0)
    .map(({ tried }) => obstaclesOf(tried).filter((one) => obstacleState(one) !== 'unknown'));
  const always = (kind: Obstacle['kind']): string[] => {
    const [first = [], ...others] = failing.map((all) =>
      all.filter((one) => one.kind === kind).map(obstacleName),
    );
    return first.filter((name) => others.every((names) => names.includes(name)));
  };
  const [pairs, limits] = [always('pair'), always('limit')];
  return [
    ...(pairs.length === 0 ? [] : [`Too close at every value: ${pairs.join(', ')}.`]),
    ...(limits.length === 0 ? [] : [`At every value: ${limits.join(', ')}.`]),
  ];
}

const runOf = ({ first, last }: FitInterval): string =>
  first.label === last.label ? first.label : `every value tried from ${first.label} to ${last.label}`;

function beyond(
  side: 'below' | 'above',
  cell: VariedCell | undefined,
  corner: Corner,
  figures: Figures,
): string[] {
  if (cell === undefined) return [];
  return [`${side} it, tried at ${cell.values[0].label}, ${reasonInWords(cell.tried, corner, figures)}`];
}

/** What the answers of a study hold for, and what they do not. */
export function scopeSentences(study: Study): string[] {
  const { cells, intervals, hubHeld } = study;
  const moves = cells.some(({ tried }) => tried.pairs.some((pair) => pair.moves));
  return [
    checkedInWords(study),
    ...checkedLimits(study),
    ...(hubHeld
      ? [
          'The file gives no place for the hub (suspension.hubFace): the hub is held where the wheel of the file puts it.',
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
          'Values between those tried are not checked. Take a shorter step if something narrow may lie between two of them.',
        ]),
  ];
}

function checkedInWords({ axes, pairCount, concernedCount }: Study): string {
  const titles = axes.map(({ title }) => title).join(' and ');
  const change = axes.some(({ part }) => part !== undefined) ? 'concern' : 'change with';
  const all = counted(pairCount, 'pair');
  if (concernedCount === 0) return `Of ${all} that are checked none changes with ${titles}.`;
  if (concernedCount === pairCount) return `All of ${all} ${change} ${titles} and are checked.`;
  return `${concernedCount} of ${all} ${change} ${titles} and are checked; the others have the same answer at every value, and are left to a sweep.`;
}

/** Which joints and dampers are checked, and which are unknown at every value. */
function checkedLimits({ axes, limitCount, concernedLimitCount, unknownLimits }: Study): string[] {
  if (limitCount === 0) return [];
  const titles = axes.map(({ title }) => title).join(' and ');
  const all = counted(limitCount, 'limit');
  const [changes, binds, are] =
    concernedLimitCount === 1 ? ['changes', 'binds', 'is'] : ['change', 'bind', 'are'];
  return [
    concernedLimitCount === 0
      ? `Joints and dampers: none of ${all} changes with ${titles}, or is found to bind.`
      : `Joints and dampers: ${concernedLimitCount} of ${all} ${changes} with ${titles}, or ${binds} at every value, and ${are} checked over all travel and steering.`,
    ...(unknownLimits.length === 0
      ? []
      : [`At every value alike: ${limitsInWords({ limits: unknownLimits }).join(' ')}`]),
  ];
}
