import type { Corner } from '../../design/schema.ts';
import type { FitInterval } from '../../studies/vary/borders.ts';
import type { VariedCell } from '../../studies/vary/variedCell.ts';
import type { Study } from '../../studies/vary/vary.ts';
import { counted, type Figures } from '../figures.ts';
import { limitsInWords, limitTitle } from '../limitRows.ts';
import { type Obstacle, obstacleName, obstacleState, obstaclesOf, reasonInWords } from './obstacles.ts';

/**
 * Result of a study of one range: a sentence for each run of values that fit, with its ends and the nearest tried values
 * that do not fit, with the reason.
 */
export function fitSentences({ axes, cells, intervals }: Study, corner: Corner, figures: Figures): string[] {
  const [{ title }] = axes;
  if (intervals === undefined) return [];
  if (intervals.length === 0)
    return [`${title}: none of the ${counted(cells.length, 'value')} tried fits.`, ...failingAtAll(cells)];
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

/** Pairs, and joints and dampers, that fail at every value that can be built. */
function failingAtAll(cells: readonly VariedCell[]): string[] {
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
  return [`${side} that, at ${cell.values[0].label}, ${reasonInWords(cell.tried, corner, figures)}`];
}

/** Scope of a study's results, in sentences. */
export function scopeSentences(study: Study, corner: Corner): string[] {
  const { cells, intervals, hubHeld } = study;
  const moves = cells.some(({ tried }) => tried.pairs.some((pair) => pair.moves));
  return [
    checkedInWords(study),
    ...checkedLimits(study, corner),
    ...(hubHeld
      ? [
          'The file does not give the place of the hub (suspension.hubFace). The hub stays where the wheel of the file puts it.',
        ]
      : []),
    ...(moves
      ? [
          'A value that fits keeps every target over all travel and steering, at the steps and, by proof, between them, with all errors subtracted.',
        ]
      : []),
    ...(intervals === undefined
      ? []
      : [
          'Values between those tried are not checked. If a short range may fail between two of them, use a smaller step.',
        ]),
  ];
}

function checkedInWords({ axes, pairCount, concernedCount }: Study): string {
  const titles = axes.map(({ title }) => title).join(' and ');
  const change = axes.some(({ part }) => part !== undefined) ? 'depend on' : 'change with';
  const all = counted(pairCount, 'pair');
  if (concernedCount === 0) return `None of ${all} changes with ${titles}.`;
  if (concernedCount === pairCount) return `All ${all} ${change} ${titles} and are checked.`;
  return `${concernedCount} of ${all} ${change} ${titles} and are checked. The others have the same result at every value: see a sweep.`;
}

/** Which limits are checked, and which are unknown at every value. */
function checkedLimits(
  { axes, limitCount, concernedLimitCount, unknownLimits }: Study,
  corner: Corner,
): string[] {
  if (limitCount === 0) return [];
  const subject = limitTitle(corner);
  const titles = axes.map(({ title }) => title).join(' and ');
  const all = counted(limitCount, 'limit');
  const [changes, binds, are] =
    concernedLimitCount === 1 ? ['changes', 'binds', 'is'] : ['change', 'bind', 'are'];
  return [
    concernedLimitCount === 0
      ? `${subject}: none of ${all} changes with ${titles} or binds.`
      : `${subject}: ${concernedLimitCount} of ${all} ${changes} with ${titles} or ${binds} at every value, and ${are} checked over all travel and steering.`,
    ...(unknownLimits.length === 0
      ? []
      : [`At every value: ${limitsInWords({ limits: unknownLimits }).join(' ')}`]),
  ];
}
