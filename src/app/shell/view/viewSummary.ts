import type { PairState } from '../../../findings/findings.ts';
import { counted, type Figures } from '../../../report/figures.ts';
import { bindingText, limitAllowed, limitUsed } from '../../../report/limitRows.ts';
import { isJoined } from '../../../report/treatment.ts';
import { pairLabel, poseBrief, stateText } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { type MeasuredPair, measuredPair } from '../../state/measuredPair.ts';
import type { Measured } from '../../state/poseStore.ts';

const STATES: readonly PairState[] = ['touches', 'tight', 'clear', 'far', 'unknown'];

/**
 * Description of the view for screen readers: the pose, the number of pairs in each state, the pairs that touch, joints and
 * dampers that bind, the pair with the least margin, and hidden parts. `measured`: undefined until the pose is measured.
 * `failure`: why it cannot be measured.
 */
export function viewSummary(
  corner: Pick<OpenCorner, 'design' | 'limitsAt' | 'pairs' | 'solids' | 'settings'>,
  measured: Measured | undefined,
  hidden: ReadonlySet<string>,
  figures: Figures,
  failure?: string,
): string {
  if (failure !== undefined) return `Clearances at this pose cannot be measured: ${failure}`;
  if (measured === undefined) return 'Measuring this pose.';
  const where = poseBrief(corner.design.corner, measured.travelMm, measured.steer, figures);
  const found = corner.pairs.flatMap((_, pair) => {
    const one = measuredPair(corner, measured, pair);
    return one === undefined ? [] : [{ ...one, pair }];
  });
  if (found.length === 0) return `At ${where}: out of reach.`;
  const apart = ({ pair }: { pair: number }) => !isJoined(corner.pairs[pair]);
  const textOf = (state: PairState, pair: number) =>
    stateText(state, corner.pairs[pair], corner.settings.limitMm, figures);
  const counts = STATES.flatMap((state) => {
    const inState = found.filter((one) => one.state === state);
    const groups =
      state === 'far' ? [inState.filter(apart), inState.filter((one) => !apart(one))] : [inState];
    return groups
      .filter((group) => group.length > 0)
      .map((group) => `${group.length} ${textOf(state, group[0].pair)}`);
  });
  const named = ({ pair, state, clearanceMm, errorMm }: MeasuredPair & { pair: number }) => {
    const gap =
      state === 'touches' || !Number.isFinite(clearanceMm)
        ? ''
        : `, ${figures.withErrorAndUnit(clearanceMm, errorMm)}`;
    return `${pairLabel(corner.solids, corner.pairs[pair])}, ${textOf(state, pair)}${gap}`;
  };
  const touching = found.filter(({ state }) => state === 'touches');
  const measurable = found.filter(({ state, marginMm }) => state !== 'touches' && Number.isFinite(marginMm));
  const least = measurable.reduce<(typeof measurable)[number] | undefined>(
    (best, one) => (best === undefined || one.marginMm < best.marginMm ? one : best),
    undefined,
  );
  const binding = corner
    .limitsAt(measured.travelMm, measured.steer)
    .filter(({ state }) => state === 'binds')
    .map((limit) => `${bindingText(limit)}, ${limitUsed(limit, figures)} of ${limitAllowed(limit, figures)}`);
  const notDrawn = corner.solids.filter(({ id }) => hidden.has(id)).map(({ label }) => label);
  return [
    `At ${where}: ${counted(found.length, 'pair')}, ${counts.join(', ')}.`,
    ...touching.map((one) => `${named(one)}.`),
    ...binding.map((words) => `${words}.`),
    ...(least === undefined ? [] : [`Least margin: ${named(least)}.`]),
    ...(notDrawn.length === 0 ? [] : [`Not drawn: ${notDrawn.join(', ')}.`]),
  ].join(' ');
}
