import type { Rigid } from '../math/rigid.ts';
import type { Zone } from '../solids/solid.ts';
import { type Body, shrunkZones } from './body.ts';
import { closestOnTree, nearestHit } from './closestPoint.ts';
import { insideTree } from './inside.ts';
import { distanceOutside } from './zoneCut.ts';

/** A part against which points of another part are measured, at one pose. */
export interface Neighbour {
  body: Body;
  neighbourFromThis: Rigid;
  /** Distance of a point of this part outside the zones of intended contact with the neighbour, mm; negative inside. */
  outsideZonesMm(x: number, y: number, z: number): number;
  /** Required clearance: target plus allowances of the pair. */
  requiredMm: number;
  /** Whether points can be inside the neighbour. False skips the inside test. */
  mayOverlap: boolean;
}

/**
 * Measures the distance of points outside zones, mm, with the zones as they are cut out of the surface; negative
 * inside.
 */
export const outsideCutZones = (
  zones: readonly Zone[],
  chordErrorMm: number,
): ((x: number, y: number, z: number) => number) => distanceOutside(shrunkZones(zones, chordErrorMm));

/** Result of the last call of `clearanceAt`. */
export const pointResult = {
  /** Distance to the nearest neighbour; inside one, minus the distance to its surface. The limit if none is nearer. */
  clearanceMm: 0,
  /** Smallest clearance minus required clearance over the neighbours within the limit; the limit if there is none. */
  marginMm: 0,
  /** Index of the nearest neighbour; -1 if none is within the limit. */
  nearest: -1,
  /**
   * Lower bound of the distance to all neighbours not excluded here: the clearance, or the bound from their boxes if
   * the clearance is at its limit.
   */
  atLeastMm: 0,
  /**
   * Neighbours excluded because contact with them is intended here: the sum of 2^n over neighbours n; exact for 53 of
   * them.
   */
  excludedMask: 0,
};

/**
 * Measures a point of a part's surface, in the part's own frame, against its neighbours. Excludes neighbours with
 * which contact is intended at that point. Writes the result to `pointResult`.
 */
export function clearanceAt(
  neighbours: readonly Neighbour[],
  x: number,
  y: number,
  z: number,
  limitMm: number,
): void {
  let clearanceMm = limitMm;
  let marginMm = limitMm;
  let nearest = -1;
  let beyondMm = Number.POSITIVE_INFINITY;
  let excludedMask = 0;
  for (let n = 0; n < neighbours.length; n++) {
    const { body, neighbourFromThis: t, outsideZonesMm, requiredMm, mayOverlap } = neighbours[n];
    if (outsideZonesMm(x, y, z) < 0) {
      excludedMask += 2 ** n;
      continue;
    }
    const px = t[0] * x + t[1] * y + t[2] * z + t[3];
    const py = t[4] * x + t[5] * y + t[6] * z + t[7];
    const pz = t[8] * x + t[9] * y + t[10] * z + t[11];
    const farMm = boxDistanceMm(body, px, py, pz);
    beyondMm = Math.min(beyondMm, farMm);
    const reachMm = Math.min(limitMm, Math.max(clearanceMm, marginMm + requiredMm));
    if (farMm >= reachMm && !mayOverlap) continue;
    const inside = mayOverlap && body.closed && insideTree(body.whole, px, py, pz);
    const searchedMm = inside ? Number.POSITIVE_INFINITY : Math.max(0, reachMm);
    const awayMm = Math.sqrt(closestOnTree(body.surface, px, py, pz, searchedMm * searchedMm));
    if (nearestHit.triangle < 0) continue;
    const ownMm = inside ? -awayMm : awayMm;
    marginMm = Math.min(marginMm, ownMm - requiredMm);
    if (ownMm >= clearanceMm) continue;
    clearanceMm = ownMm;
    nearest = n;
  }
  pointResult.clearanceMm = clearanceMm;
  pointResult.marginMm = marginMm;
  pointResult.nearest = nearest;
  pointResult.excludedMask = excludedMask;
  pointResult.atLeastMm = nearest < 0 ? Math.max(limitMm, beyondMm) : clearanceMm;
}

function boxDistanceMm({ box }: Body, x: number, y: number, z: number): number {
  const dx = Math.max(0, box[0] - x, x - box[3]);
  const dy = Math.max(0, box[1] - y, y - box[4]);
  const dz = Math.max(0, box[2] - z, z - box[5]);
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}
