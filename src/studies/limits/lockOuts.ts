import type { Corner } from '../../design/schema.ts';
import { layoutOf } from '../../layouts/layoutOf.ts';
import { solvePose } from '../../mechanism/solvePose.ts';
import { mechanismOf } from '../../sweep/setUp.ts';
import { type RangeEnd, rangesOf } from './ranges.ts';

/** How far beyond an end of travel or lock the suspension still moves. */
export interface LockOutDistance {
  end: RangeEnd;
  /** Least distance beyond the end, mm or degrees; negative if the end is not reached. */
  beyond: number;
  /** True if nothing locks out up to `beyond`, where the search ends. */
  isOpen: boolean;
  /** What locks out there, in a sentence; empty if nothing does. */
  reason: string;
}

/** How far beyond the ends is searched: mm of travel, mm or degrees of steering input. */
const SEARCHED = { travel: 200, length: 100, angle: 40 };

/**
 * Distance from each end of travel and lock to the pose at which the suspension locks out: arms or steering arm and tie rod
 * in line, or over centre. The least of three: at both ends and in the middle of the other range. An end of 0 is left out if
 * the steering does not move to that side. Throws DesignProblems if the mechanism cannot be built.
 */
export function lockOutDistances(corner: Corner): LockOutDistance[] {
  const mechanism = mechanismOf(corner);
  const asked = rangesOf(corner.suspension);
  const inputSearched = SEARCHED[layoutOf(corner.suspension).steering.quantity];
  const travels = [-asked.droop, 0, asked.bump];
  const ends: { end: RangeEnd; sign: 1 | -1 }[] = [
    { end: 'bump', sign: 1 },
    { end: 'droop', sign: -1 },
    { end: 'outboard', sign: 1 },
    { end: 'inboard', sign: -1 },
  ];
  return ends.flatMap(({ end, sign }): LockOutDistance[] => {
    const isTravel = end === 'bump' || end === 'droop';
    if (!isTravel && asked[end] === 0) return [];
    const searched = isTravel ? SEARCHED.travel : inputSearched;
    const far = sign * (asked[end] + searched);
    const found = (isTravel ? [-1, 0, 1] : travels).map((other) => {
      const pose = isTravel
        ? solvePose(mechanism, far, other)
        : solvePose(mechanism, other, far / asked[end]);
      if (pose.kind === 'solved') return { end, beyond: searched, isOpen: true, reason: '' };
      const reached = isTravel ? pose.nearest.travelMm : pose.nearest.steer * asked[end];
      return { end, beyond: sign * reached - asked[end], isOpen: false, reason: pose.reason };
    });
    return [found.reduce((least, one) => (one.beyond < least.beyond ? one : least))];
  });
}
