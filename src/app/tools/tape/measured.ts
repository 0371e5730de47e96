import {
  type FeatureDistance,
  FeatureDistanceQuery,
  lineTree,
  type MeasuredFeature,
  patchTree,
} from '../../../clearance/featureDistance.ts';
import type { Corner } from '../../../design/schema.ts';
import type { Side } from '../../../design/side.ts';
import { shownPoint } from '../../../design/side.ts';
import { addScaled, cross, dot, length, normalize, sub, type Vec3 } from '../../../math/vec.ts';
import type { Carriers } from '../../../mechanism/pose.ts';
import type { Solid } from '../../../solids/solid.ts';
import { type WheelAxis, wheelAxisAt } from '../../../solids/wheelFrame.ts';
import type { Pick } from '../../workers/tape/pick.ts';

/** Offset from the first to the second of two points, along the axes of the shown vehicle and of the wheel at the pose, mm. */
export interface Offsets {
  vehicle: { forwardMm: number; leftMm: number; upMm: number };
  wheel: { forwardMm: number; outboardMm: number; upMm: number; awayFromAxisMm: number };
}

export interface Measured extends FeatureDistance {
  /** Undefined unless both picks are points. */
  offsets: Offsets | undefined;
}

/** A pick as input of a distance query. */
function featureOf(solids: readonly Solid[], { solid, what }: Pick): MeasuredFeature {
  const { errorMm } = what;
  switch (what.kind) {
    case 'place':
      return { tree: lineTree([what.at]), errorMm, direction: undefined, isPoint: true };
    case 'ring': {
      const direction = { kind: 'along' as const, unit: what.axis, tiltErrorRad: what.tiltErrorRad };
      return { tree: lineTree([what.centre]), errorMm, direction, isPoint: true };
    }
    case 'edge': {
      const unit = normalize(sub(what.to, what.from));
      const direction = { kind: 'along' as const, unit, tiltErrorRad: what.tiltErrorRad };
      return { tree: lineTree([what.from, what.to]), errorMm, direction, isPoint: false };
    }
    case 'flat':
    case 'cylinder': {
      const { mesh, shown } = solids[solid];
      const direction =
        what.kind === 'flat'
          ? { kind: 'normal' as const, unit: what.normal, tiltErrorRad: what.tiltErrorRad }
          : { kind: 'along' as const, unit: what.axis, tiltErrorRad: what.tiltErrorRad };
      return { tree: patchTree(shown ?? mesh, what.triangles), errorMm, direction, isPoint: false };
    }
  }
}

/** Offset from one point to another, both in vehicle axes of the left corner. */
export function offsetsOf(from: Vec3, to: Vec3, side: Side, { point, direction }: WheelAxis): Offsets {
  const offset = sub(to, from);
  const [forwardMm, leftMm, upMm] = shownPoint(side, offset);
  const up = normalize(addScaled([0, 0, 1], direction, -direction[2]));
  const away = (p: Vec3) => length(cross(sub(p, point), direction));
  return {
    vehicle: { forwardMm, leftMm, upMm },
    wheel: {
      forwardMm: dot(offset, cross(direction, up)),
      outboardMm: dot(offset, direction),
      upMm: dot(offset, up),
      awayFromAxisMm: away(to) - away(from),
    },
  };
}

/** Returns a function that measures between two picks at a pose. */
export function tapeBetween(
  corner: Corner,
  solids: readonly Solid[],
  [a, b]: readonly [Pick, Pick],
): (carriers: Carriers) => Measured {
  const [first, second] = [featureOf(solids, a), featureOf(solids, b)];
  const query = new FeatureDistanceQuery(first, second);
  return (carriers) => {
    const found = query.at(carriers[solids[a.solid].carrier], carriers[solids[b.solid].carrier]);
    const wheel = wheelAxisAt(corner, carriers);
    const isBetweenPoints = first.isPoint && second.isPoint;
    return {
      ...found,
      offsets: isBetweenPoints ? offsetsOf(found.from, found.to, corner.side, wheel) : undefined,
    };
  };
}
