import type { Corner } from '../../design/schema.ts';
import { doConvexMeet, edgesOf, type Point2 } from '../../math/convex.ts';
import { clockedPlace, hubMountPlaces } from '../../solids/boltHoles.ts';
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
 * Where a plate of the upright does not stand between the bolts of a mount: seen along the wheel axis, however deep, it does
 * not meet the convex shape whose corners are the bolts' centres. A bolt that runs into the plate itself is no matter of this,
 * but of clearance. Arcs of the mount's clocking, in closed form. Throws a RangeError where there is no such plate.
 */
export function unsplitArcs(corner: Corner, { mount, plate }: Unsplit): Arc[] {
  const plates = uprightPlates(corner);
  const found = plates.find(({ id }) => id === plate);
  if (found === undefined) {
    const has = plates.length === 0 ? 'none' : plates.map(({ id }) => id).join(', ');
    throw new RangeError(
      `the upright has no plate "${plate}" that could stand between bolts along the wheel axis: it has ${has}`,
    );
  }
  return arcsApart(boltCentres(corner, mount), found.plan);
}

/** Centres of a mount's bolts at a clocking of 0, in order round their convex shape: x, z of the wheel-axis frame. */
function boltCentres(corner: Corner, mount: Unsplit['mount']): Point2[] {
  if (mount === 'caliper') {
    const { boltRadius, boltSpacing } = studiedCaliper(corner).entry.mount;
    const outward = Math.sqrt(boltRadius ** 2 - (boltSpacing / 2) ** 2);
    return [-1, 1].map((side) => [(side * boltSpacing) / 2, outward] as const);
  }
  const [hub] = entries(corner, 'hub');
  if (hub === undefined)
    throw new RangeError('there is no hub whose bolts could be split: add a part of kind "hub"');
  return hubMountPlaces({ ...hub, clockingDeg: 0 });
}

/**
 * The turns about the origin, toward larger clocking, by which a convex shape meets none of some others that stand. As it turns
 * that changes only where a corner of the one comes upon an edge of another: a corner at radius r and clocking a reaches
 * the line whose normal is at clocking b and that is d from the origin where r cos(a - b) = d. Between two such turns one
 * stands for all.
 */
export function arcsApart(turning: readonly Point2[], standing: readonly (readonly Point2[])[]): Arc[] {
  const meetsAt = (deg: number): boolean => {
    const turned = turning.map((corner) => clockedPlace(deg, corner));
    return standing.some((piece) => doConvexMeet(turned, piece));
  };
  const changes = standing
    .flatMap((piece) => [...crossings(turning, piece).map((deg) => -deg), ...crossings(piece, turning)])
    .map(wrapDeg)
    .toSorted((a, b) => a - b);
  if (changes.length === 0) return meetsAt(0) ? [] : [{ fromDeg: -180, toDeg: 180 }];
  const arcs: Arc[] = [];
  let isWholeCircle = true;
  changes.forEach((fromDeg, k) => {
    const toDeg = k + 1 < changes.length ? changes[k + 1] : changes[0] + WHOLE_DEG;
    if (toDeg - fromDeg < LEAST_DEG) return;
    if (meetsAt((fromDeg + toDeg) / 2)) {
      isWholeCircle = false;
      return;
    }
    const last = arcs.at(-1);
    if (last !== undefined && fromDeg - last.toDeg < LEAST_DEG) last.toDeg = toDeg;
    else arcs.push({ fromDeg, toDeg });
  });
  if (isWholeCircle) return [{ fromDeg: -180, toDeg: 180 }];
  const [first, last] = [arcs[0], arcs.at(-1)];
  if (first === undefined || last === undefined || first === last) return arcs;
  if (first.fromDeg + WHOLE_DEG - last.toDeg >= LEAST_DEG) return arcs;
  return [...arcs.slice(1, -1), { fromDeg: last.fromDeg, toDeg: first.toDeg + WHOLE_DEG }];
}

/** Two turns nearer to each other than this are one that was computed twice, degrees. */
const LEAST_DEG = 1e-9;

/** The turns of some edges about the origin, toward larger clocking, at which a corner that stands lies in the line of one. */
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

/** Clocking of the direction from the origin to a place, degrees. */
const clockOf = ([x, z]: Point2): number => radToDeg(Math.atan2(-x, z));
