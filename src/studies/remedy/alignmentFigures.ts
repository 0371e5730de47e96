import type { Corner } from '../../design/schema.ts';
import { alignmentAt } from '../../mechanism/alignment.ts';
import { solvePose } from '../../mechanism/solvePose.ts';
import { mechanismOf, tyreCircle } from '../../sweep/setUp.ts';
import { stepsThroughZero } from '../../sweep/steps.ts';

/** Alignment of the left corner, with the signs of `Alignment`. */
export interface AlignmentFigures {
  /** Static values at ride height. */
  camberDeg: number;
  toeDeg: number;
  scrubRadiusMm: number;
  halfTrackMm: number;
  /**
   * Bump steer: largest less smallest toe over the travel, straight ahead, at 41 steps. Undefined if the suspension does
   * not reach all of it.
   */
  toeChangeDeg: number | undefined;
}

const TRAVEL_STEPS = 41;

/** The alignment figures of a corner. Throws DesignProblems if its mechanism cannot be built. */
export function alignmentFigures(corner: Corner): AlignmentFigures {
  const mechanism = mechanismOf(corner);
  const tyre = tyreCircle(corner);
  const at = (travelMm: number) => {
    const pose = solvePose(mechanism, travelMm, 0);
    return pose.kind === 'solved' ? alignmentAt(mechanism, pose, tyre) : undefined;
  };
  const still = at(0);
  if (still === undefined) throw new Error('the prepared mechanism does not assemble at ride height');
  const { camberDeg, toeDeg, scrubRadiusMm, halfTrackMm } = still;
  const { bump, droop } = corner.suspension.travel;
  const toes = [...stepsThroughZero(-droop, bump, TRAVEL_STEPS)].map((travel) => at(travel)?.toeDeg);
  const reached = toes.filter((toe) => toe !== undefined);
  return {
    camberDeg,
    toeDeg,
    scrubRadiusMm,
    halfTrackMm,
    toeChangeDeg: reached.length < toes.length ? undefined : Math.max(...reached) - Math.min(...reached),
  };
}
