import type { Rigid } from '../math/rigid.ts';
import type { Zone } from '../solids/solid.ts';
import { type Body, drawnIn } from './body.ts';
import { closestOnTree, near } from './closestPoint.ts';
import { insideTree } from './inside.ts';
import { outsideOf } from './zoneCut.ts';

/** A part that points of another one are measured against, at one pose. */
export interface Neighbour {
  body: Body;
  neighbourFromThis: Rigid;
  /** How far a point of this part is outside the zones of intended contact with it, mm; negative within. */
  outsideZonesMm(x: number, y: number, z: number): number;
  /** Target and allowances of the pair. */
  wantedMm: number;
  /** Whether points may lie inside it: false saves the asking. */
  mayOverlap: boolean;
}

/** Measures how far points of a part are outside zones, mm, as these are cut out of its surface; negative within one. */
export const outsideCutZones = (
  zones: readonly Zone[],
  chordErrorMm: number,
): ((x: number, y: number, z: number) => number) => outsideOf(drawnIn(zones, chordErrorMm));

/** What the last call of `clearanceAt` found. */
export const atPoint = {
  /** To the nearest neighbour; negative within one: minus the way out. The limit where none is nearer. */
  clearanceMm: 0,
  /** Least clearance less what is wanted, over the neighbours nearer than the limit; the limit where there is none. */
  marginMm: 0,
  /** Index of the nearest neighbour; -1 for none within the limit. */
  nearest: -1,
  /** No neighbour that counts here is nearer than this: the clearance, or where that is at its limit what their boxes tell. */
  atLeastMm: 0,
  /** Which neighbours contact is intended with here: 2^n for neighbour n, summed; exact for 53 of them. */
  leftOut: 0,
};

/**
 * Measures a point of a part's surface, in the part's own frame, against its neighbours. Neighbours with which contact is
 * intended there are left out.
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
  let leftOut = 0;
  for (let n = 0; n < neighbours.length; n++) {
    const { body, neighbourFromThis: t, outsideZonesMm, wantedMm, mayOverlap } = neighbours[n];
    if (outsideZonesMm(x, y, z) < 0) {
      leftOut += 2 ** n;
      continue;
    }
    const px = t[0] * x + t[1] * y + t[2] * z + t[3];
    const py = t[4] * x + t[5] * y + t[6] * z + t[7];
    const pz = t[8] * x + t[9] * y + t[10] * z + t[11];
    const farMm = boxDistanceMm(body, px, py, pz);
    beyondMm = Math.min(beyondMm, farMm);
    const reachMm = Math.min(limitMm, Math.max(clearanceMm, marginMm + wantedMm));
    if (farMm >= reachMm && !mayOverlap) continue;
    const inside = mayOverlap && body.closed && insideTree(body.whole, px, py, pz);
    const searchedMm = inside ? Number.POSITIVE_INFINITY : Math.max(0, reachMm);
    const awayMm = Math.sqrt(closestOnTree(body.surface, px, py, pz, searchedMm * searchedMm));
    if (near.triangle < 0) continue;
    const ownMm = inside ? -awayMm : awayMm;
    marginMm = Math.min(marginMm, ownMm - wantedMm);
    if (ownMm >= clearanceMm) continue;
    clearanceMm = ownMm;
    nearest = n;
  }
  atPoint.clearanceMm = clearanceMm;
  atPoint.marginMm = marginMm;
  atPoint.nearest = nearest;
  atPoint.leftOut = leftOut;
  atPoint.atLeastMm = nearest < 0 ? Math.max(limitMm, beyondMm) : clearanceMm;
}

function boxDistanceMm({ box }: Body, x: number, y: number, z: number): number {
  const dx = Math.max(0, box[0] - x, x - box[3]);
  const dy = Math.max(0, box[1] - y, y - box[4]);
  const dz = Math.max(0, box[2] - z, z - box[5]);
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}
