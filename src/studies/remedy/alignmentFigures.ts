import type { Corner } from '../../design/schema.ts';
import { alignmentAt } from '../../mechanism/alignment.ts';
import { solvePose } from '../../mechanism/solvePose.ts';
import { mechanismOf, tyreCircle } from '../../sweep/setUp.ts';
import { stepsThroughZero } from '../../sweep/steps.ts';

/** Alignment of the left corner with its travel and lock, with the signs of `Alignment`. */
export interface AlignmentFigures {
  /** Static values at ride height. */
  camberDeg: number;
  toeDeg: number;
  casterDeg: number;
  scrubRadiusMm: number;
  mechanicalTrailMm: number;
  halfTrackMm: number;
  /**
   * Bump steer: largest less smallest toe over the travel, straight ahead, at 41 steps. Undefined if the suspension does
   * not reach all of it.
   */
  toeChangeDeg: number | undefined;
  /**
   * Road-wheel angle at ride height with the front edge fully outboard, and fully inboard (negative). Undefined if that
   * lock is not reached.
   */
  outboardLockDeg: number | undefined;
  inboardLockDeg: number | undefined;
  /** Bump and droop together. */
  travelMm: number;
}

const TRAVEL_STEPS = 41;

/** The alignment figures of a corner. Throws DesignProblems if its mechanism cannot be built. */
export function alignmentFigures(corner: Corner): AlignmentFigures {
  const mechanism = mechanismOf(corner);
  const tyre = tyreCircle(corner);
  const at = (travelMm: number, steer = 0) => {
    const pose = solvePose(mechanism, travelMm, steer);
    return pose.kind === 'solved' ? alignmentAt(mechanism, pose, tyre) : undefined;
  };
  const still = at(0);
  if (still === undefined) throw new Error('the prepared mechanism does not assemble at ride height');
  const { camberDeg, toeDeg, casterDeg, scrubRadiusMm, mechanicalTrailMm, halfTrackMm } = still;
  const { bump, droop } = corner.suspension.travel;
  const toes = [...stepsThroughZero(-droop, bump, TRAVEL_STEPS)].map((travel) => at(travel)?.toeDeg);
  const reached = toes.filter((toe) => toe !== undefined);
  return {
    camberDeg,
    toeDeg,
    casterDeg,
    scrubRadiusMm,
    mechanicalTrailMm,
    halfTrackMm,
    toeChangeDeg: reached.length < toes.length ? undefined : Math.max(...reached) - Math.min(...reached),
    outboardLockDeg: at(0, 1)?.roadWheelAngleDeg,
    inboardLockDeg: at(0, -1)?.roadWheelAngleDeg,
    travelMm: bump + droop,
  };
}

const ANGLES = [
  'camberDeg',
  'toeDeg',
  'casterDeg',
  'toeChangeDeg',
  'outboardLockDeg',
  'inboardLockDeg',
] as const satisfies (keyof AlignmentFigures)[];
const LENGTHS = [
  'scrubRadiusMm',
  'mechanicalTrailMm',
  'halfTrackMm',
  'travelMm',
] as const satisfies (keyof AlignmentFigures)[];

/**
 * Sums of the changes of all angles, degrees, and of all lengths, mm. The sum of the angles is infinite if one of them is
 * known in one of the two alignments only.
 */
export function alignmentChange(
  one: AlignmentFigures,
  other: AlignmentFigures,
): { degrees: number; mm: number } {
  const angle = (a: number | undefined, b: number | undefined): number => {
    if (a === undefined || b === undefined) return a === b ? 0 : Number.POSITIVE_INFINITY;
    return Math.abs(a - b);
  };
  return {
    degrees: ANGLES.reduce((sum, name) => sum + angle(one[name], other[name]), 0),
    mm: LENGTHS.reduce((sum, name) => sum + Math.abs(one[name] - other[name]), 0),
  };
}
