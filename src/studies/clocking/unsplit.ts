import type { Corner } from '../../design/schema.ts';
import { doConvexMeet, edgesOf, type Point2 } from '../../math/convex.ts';
import { clockedPlace, hubMountPlaces } from '../../solids/fasteners/boltHoles.ts';
import { uprightPlates } from '../../solids/uprightPlates.ts';
import { entries } from '../../solids/wheelFrame.ts';
import { radToDeg } from '../../units/angle.ts';
import { studiedCaliper } from './groups.ts';
import { type Arc, WHOLE_DEG, wrapDeg } from './spans.ts';

/** The bolts of a mount that a plate of the upright must not split. */
export interface Unsplit {
  mount: 'hub' | 'caliper';
  /** Id of the plate: see `UprightPlate`. */
  plate: string;
}

/**
 * Arcs of a mount's clocking in which a plate of the upright is not between the mount's bolts: seen along the wheel
 * axis, at any depth, it does not meet the convex hull of the bolts' centres. Contact of a bolt with the plate itself
 * is a matter of clearance. Computed in closed form. Throws a RangeError if there is no such plate.
 */
export function unsplitArcs(corner: Corner, { mount, plate }: Unsplit): Arc[] {
  const plates = uprightPlates(corner);
  const found = plates.find(({ id }) => id === plate);
  if (found === undefined) {
    const has = plates.length === 0 ? 'none' : plates.map(({ id }) => id).join(', ');
    throw new RangeError(`the upright has no plate "${plate}" along the wheel axis: it has ${has}`);
  }
  return arcsApart(boltCentres(corner, mount), found.plan);
}

/** Centres of a mount's bolts at clocking 0, in order around their convex hull: x, z of the wheel-axis frame. */
function boltCentres(corner: Corner, mount: Unsplit['mount']): Point2[] {
  if (mount === 'caliper') {
    const { boltRadius, boltSpacing } = studiedCaliper(corner).entry.mount;
    const outward = Math.sqrt(boltRadius ** 2 - (boltSpacing / 2) ** 2);
    return [-1, 1].map((side) => [(side * boltSpacing) / 2, outward] as const);
  }
  const [hub] = entries(corner, 'hub');
  if (hub === undefined)
    throw new RangeError('the corner has no hub and no hub bolts: add a part of kind "hub"');
  return hubMountPlaces({ ...hub, clockingDeg: 0 });
}

/**
 * The turns about the origin, toward larger clocking, by which a convex shape meets none of some fixed ones. This
 * changes only when a corner of one reaches an edge of the other: a corner at radius r and clocking a reaches the
 * line with its normal at clocking b and at distance d from the origin when r cos(a - b) = d. One turn between two
 * such changes decides for all turns between them.
 */
export function arcsApart(turning: readonly Point2[], fixed: readonly (readonly Point2[])[]): Arc[] {
  const meetsAt = (deg: number): boolean => {
    const turned = turning.map((corner) => clockedPlace(deg, corner));
    return fixed.some((piece) => doConvexMeet(turned, piece));
  };
  const changes = fixed
    .flatMap((piece) => [...crossings(turning, piece).map((deg) => -deg), ...crossings(piece, turning)])
    .map(wrapDeg)
    .toSorted((a, b) => a - b);
  if (changes.length === 0) return meetsAt(0) ? [] : [{ fromDeg: -180, toDeg: 180 }];
  const arcs: Arc[] = [];
  let isWholeCircle = true;
  changes.forEach((fromDeg, k) => {
    const toDeg = k + 1 < changes.length ? changes[k + 1] : changes[0] + WHOLE_DEG;
    if (toDeg - fromDeg < SAME_TURN_DEG) return;
    if (meetsAt((fromDeg + toDeg) / 2)) {
      isWholeCircle = false;
      return;
    }
    const last = arcs.at(-1);
    if (last !== undefined && fromDeg - last.toDeg < SAME_TURN_DEG) last.toDeg = toDeg;
    else arcs.push({ fromDeg, toDeg });
  });
  if (isWholeCircle) return [{ fromDeg: -180, toDeg: 180 }];
  const [first, last] = [arcs[0], arcs.at(-1)];
  if (first === undefined || last === undefined || first === last) return arcs;
  if (first.fromDeg + WHOLE_DEG - last.toDeg >= SAME_TURN_DEG) return arcs;
  return [...arcs.slice(1, -1), { fromDeg: last.fromDeg, toDeg: first.toDeg + WHOLE_DEG }];
}

/** Two turns closer than this are the same one computed twice, degrees. */
const SAME_TURN_DEG = 1e-9;

/**
 * The turns of some edges about the origin, toward larger clocking, at which a fixed corner is on the line of one of
 * them.
 */
function crossings(corners: readonly Point2[], edgesShape: readonly Point2[]): number[] {
  return edgesOf(edgesShape).flatMap(([a, b]) => {
    const lengthMm = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (lengthMm === 0) return [];
    const normal: Point2 = [(b[1] - a[1]) / lengthMm, (a[0] - b[0]) / lengthMm];
    const offMm = normal[0] * a[0] + normal[1] * a[1];
    return corners.flatMap((corner) => {
      const radiusMm = Math.hypot(...corner);
      if (Math.abs(offMm) > radiusMm) return [];
      const halfDeg = radToDeg(Math.acos(offMm / radiusMm));
      const middleDeg = clockOf(corner) - clockOf(normal);
      return [middleDeg - halfDeg, middleDeg + halfDeg];
    });
  });
}

/** Clocking of the direction from the origin to a point, degrees. */
const clockOf = ([x, z]: Point2): number => radToDeg(Math.atan2(-x, z));
