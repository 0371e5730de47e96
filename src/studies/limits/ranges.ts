import { cornerHash } from '../../design/hash.ts';
import type { Corner, Suspension } from '../../design/schema.ts';
import { layoutOf } from '../../layouts/layoutOf.ts';
import { lockOf } from '../../layouts/steering.ts';
import { mechanismOf, type Setup } from '../../sweep/setUp.ts';
import { stepsThroughZero } from '../../sweep/steps.ts';

/** How far the suspension travels and steers: mm of wheel travel, and mm or degrees of steering input; each at least 0. */
export interface Ranges {
  bump: number;
  droop: number;
  outboard: number;
  inboard: number;
}
export type RangeEnd = keyof Ranges;

/** The ranges that the file asks for. */
export const rangesOf = (suspension: Suspension): Ranges => ({
  ...suspension.travel,
  outboard: lockOf(suspension, 'outboard'),
  inboard: lockOf(suspension, 'inboard'),
});

/** Path of the end of a range in the file. */
export const pathOfEnd = (suspension: Suspension, end: RangeEnd): string[] =>
  end === 'bump' || end === 'droop'
    ? ['suspension', 'travel', end]
    : ['suspension', 'steering', layoutOf(suspension).steering[end]];

/** A corner with other ranges. */
function cornerWithin(corner: Corner, { bump, droop, outboard, inboard }: Ranges): Corner {
  const { suspension } = corner;
  const names = layoutOf(suspension).steering;
  const steering = { ...suspension.steering, [names.outboard]: outboard, [names.inboard]: inboard };
  return { ...corner, suspension: { ...suspension, travel: { bump, droop }, steering } };
}

/**
 * A built corner with other ranges, at as many steps. Solids and pairs do not depend on the ranges, so they stay. A steer of
 * ±1 is the lock of the new ranges.
 */
export function setupWithin<S extends Setup>(setup: S, ranges: Ranges): S {
  const { design, settings } = setup;
  const corner = cornerWithin(design.corner, ranges);
  return {
    ...setup,
    design: { ...design, corner, hash: cornerHash(corner, design.assets) },
    mechanism: mechanismOf(corner),
    travelMm: stepsThroughZero(-ranges.droop, ranges.bump, settings.travelSteps),
    steer: stepsThroughZero(-1, 1, settings.steerSteps),
  };
}

/** Share of travel times steering input that is kept, 0 to 1; of travel alone if the corner does not steer. */
export function shareOf(kept: Ranges, asked: Ranges): number {
  const travel = (kept.bump + kept.droop) / (asked.bump + asked.droop);
  const lock = asked.outboard + asked.inboard;
  return lock === 0 ? travel : (travel * (kept.outboard + kept.inboard)) / lock;
}
