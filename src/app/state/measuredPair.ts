import { CLEARANCE_KINDS, type ClearanceKind } from '../../clearance/clearance.ts';
import type { PairState } from '../../findings/findings.ts';
import { stateOf } from '../../findings/findingsOf.ts';
import type { Vec3 } from '../../math/vec.ts';
import { POSE_STATES } from '../../sweep/result.ts';
import type { OpenCorner } from './engine.ts';
import type { Measured } from './poseStore.ts';

/** One pair at the last measured pose; points in vehicle axes of the left corner. */
export interface MeasuredPair {
  kind: ClearanceKind;
  state: PairState;
  clearanceMm: number;
  errorMm: number;
  marginMm: number;
  pointA: Vec3;
  pointB: Vec3;
}

const SOLVED = POSE_STATES.indexOf('solved');

/** Reads one pair from a measured row; undefined if the pose is unreachable or not measured yet. */
export function measuredPair(
  corner: Pick<OpenCorner, 'pairs'>,
  { row }: Measured,
  pair: number,
): MeasuredPair | undefined {
  const kind = CLEARANCE_KINDS[row.state[pair]];
  if (row.poseState[0] !== SOLVED || kind === undefined || kind === 'pending') return undefined;
  const { targetMm, allowanceMm } = corner.pairs[pair];
  const clearanceMm = row.clearanceMm[pair];
  const errorMm = row.errorMm[pair];
  const marginMm = clearanceMm - targetMm - allowanceMm;
  const point = (first: number): Vec3 => {
    const at = pair * 6 + first;
    return [row.points[at], row.points[at + 1], row.points[at + 2]];
  };
  return {
    kind,
    state: stateOf(clearanceMm, errorMm, marginMm),
    clearanceMm,
    errorMm,
    marginMm,
    pointA: point(0),
    pointB: point(3),
  };
}

/** Indices of the pairs that touch at the last measured pose. */
export const touchingPairs = (corner: OpenCorner, measured: Measured): number[] =>
  corner.pairs.flatMap((_, pair) =>
    measuredPair(corner, measured, pair)?.state === 'touches' ? [pair] : [],
  );
