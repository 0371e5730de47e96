import { type Between, BetweenQuery, lineTree, type Marked, patchTree } from '../../clearance/between.ts';
import type { Corner } from '../../design/schema.ts';
import type { Side } from '../../design/side.ts';
import { shownPoint } from '../../design/side.ts';
import { addScaled, cross, dot, length, normalize, sub, type Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import type { Solid } from '../../solids/solid.ts';
import { type WheelAxis, wheelAxisAt } from '../../solids/wheelFrame.ts';
import type { Pick } from './pick.ts';

/** From the first to the second of two points, along the axes of the vehicle as shown and those of the wheel as it stands. */
export interface Offsets {
  vehicle: { forwardMm: number; leftMm: number; upMm: number };
  wheel: { forwardMm: number; outboardMm: number; upMm: number; awayFromAxisMm: number };
}

export interface Measured extends Between {
  /** Undefined where one of the two is no point. */
  offsets: Offsets | undefined;
}

/** What is picked, made ready to be measured from. */
function markedOf(solids: readonly Solid[], { solid, what }: Pick): Marked {
  const { errorMm } = what;
  switch (what.kind) {
    case 'place':
      return { tree: lineTree([what.at]), errorMm, way: undefined, isPoint: true };
    case 'ring': {
      const way = { kind: 'along' as const, unit: what.axis, tiltErrorRad: what.tiltErrorRad };
      return { tree: lineTree([what.centre]), errorMm, way, isPoint: true };
    }
    case 'edge': {
      const unit = normalize(sub(what.to, what.from));
      const way = { kind: 'along' as const, unit, tiltErrorRad: what.tiltErrorRad };
      return { tree: lineTree([what.from, what.to]), errorMm, way, isPoint: false };
    }
    case 'flat':
    case 'cylinder': {
      const { mesh, shown } = solids[solid];
      const way =
        what.kind === 'flat'
          ? { kind: 'normal' as const, unit: what.normal, tiltErrorRad: what.tiltErrorRad }
          : { kind: 'along' as const, unit: what.axis, tiltErrorRad: what.tiltErrorRad };
      return { tree: patchTree(shown ?? mesh, what.triangles), errorMm, way, isPoint: false };
    }
  }
}

/** From one point to another, both in vehicle axes of the left corner. */
export function offsetsOf(from: Vec3, to: Vec3, side: Side, { point, direction }: WheelAxis): Offsets {
  const way = sub(to, from);
  const [forwardMm, leftMm, upMm] = shownPoint(side, way);
  const up = normalize(addScaled([0, 0, 1], direction, -direction[2]));
  const away = (p: Vec3) => length(cross(sub(p, point), direction));
  return {
    vehicle: { forwardMm, leftMm, upMm },
    wheel: {
      forwardMm: dot(way, cross(direction, up)),
      outboardMm: dot(way, direction),
      upMm: dot(way, up),
      awayFromAxisMm: away(to) - away(from),
    },
  };
}

/** Measures two picks at one pose after another. */
export function tapeBetween(
  corner: Corner,
  solids: readonly Solid[],
  [a, b]: readonly [Pick, Pick],
): (carriers: Carriers) => Measured {
  const [first, second] = [markedOf(solids, a), markedOf(solids, b)];
  const query = new BetweenQuery(first, second);
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
