import { expect } from 'vitest';
import type { Corner } from '../../src/design/schema.ts';
import { applyPoint, invert } from '../../src/math/rigid.ts';
import type { BuiltSolid } from '../../src/solids/build.ts';
import { vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import {
  atTurn,
  type Beside,
  besideY,
  cutByHalfPlane,
  pointsIn,
  type Segment,
  signedDistanceToCut,
} from '../oracles/halfPlane.ts';
import { closedOutwardProblems, distanceToMeshMm } from '../oracles/meshChecks.ts';
import { between } from '../oracles/random.ts';

/** Radii and y of a rectangle in a half plane through the wheel axis, which gives a ring when revolved. */
export interface Ring {
  inner: number;
  outer: number;
  from: number;
  to: number;
}

/** The outline of a solid in a half plane through the wheel axis at one turn. */
export const cutAt = (mesh: BuiltSolid['mesh'], corner: Corner, turnRad: number): Segment[] =>
  cutByHalfPlane(mesh, invert(vehicleFromWheelAxis(corner.suspension)), turnRad);

/** Least and greatest radius and y of a mesh about the wheel axis. */
export function extent(mesh: BuiltSolid['mesh'], corner: Corner) {
  const points = pointsIn(mesh, invert(vehicleFromWheelAxis(corner.suspension))).map(besideY);
  const span = (values: number[]) => ({
    least: values.reduce((a, b) => Math.min(a, b)),
    most: values.reduce((a, b) => Math.max(a, b)),
  });
  return { radius: span(points.map(([r]) => r)), y: span(points.map(([, y]) => y)) };
}

/** Expects points of a true surface of revolution to be within the chord error of the mesh, at random turns. */
export function expectOnSurface(
  solid: BuiltSolid,
  corner: Corner,
  places: readonly Beside[],
  random: () => number,
  about: string,
): void {
  const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
  for (const place of places) {
    const point = applyPoint(vehicleFromWheel, atTurn(place, between(random, 0, 2 * Math.PI)));
    expect(distanceToMeshMm(solid.mesh, point), `${about}: ${place}`).toBeLessThanOrEqual(solid.chordErrorMm);
  }
}

/**
 * Expects the mesh to be the union of rings to within its chord error: random points of the rings' true surface are on the
 * mesh, and each cut of the mesh is in the rings but not deep inside them.
 */
export function expectRings(
  solid: BuiltSolid,
  corner: Corner,
  rings: readonly Ring[],
  random: () => number,
  about: string,
): void {
  const depthIn = ({ inner, outer, from, to }: Ring, [r, y]: Beside) =>
    Math.min(inner === 0 ? Infinity : r - inner, outer - r, y - from, to - y);
  const onRing = ({ inner, outer, from, to }: Ring): Beside => {
    const side = Math.floor(4 * random());
    if (side < 2) return [side === 0 ? inner : outer, between(random, from, to)];
    return [between(random, inner, outer), side === 2 ? from : to];
  };
  const places = Array.from({ length: 40 }, () => onRing(rings[Math.floor(random() * rings.length)])).filter(
    (place) => place[0] > 0 && rings.every((ring) => depthIn(ring, place) <= 1e-9),
  );
  // Two rings that share a part of a face have no surface there.
  const free = places.filter((place) => rings.filter((ring) => depthIn(ring, place) > -1e-9).length === 1);
  expect(free.length, about).toBeGreaterThan(3);
  expectOnSurface(solid, corner, free, random, about);
  for (const [a] of cutAt(solid.mesh, corner, between(random, 0, 2 * Math.PI))) {
    const depth = Math.max(...rings.map((ring) => depthIn(ring, a)));
    expect(depth, `${about}: ${a}`).toBeGreaterThanOrEqual(-solid.chordErrorMm);
    if (rings.length === 1 && a[0] > 0)
      expect(depth, `${about}: ${a}`).toBeLessThanOrEqual(solid.chordErrorMm);
  }
}

/** Volume of separate or nested rings that do not overlap, mm^3. */
export const ringsVolume = (rings: readonly Ring[]): number =>
  rings.reduce(
    (sum, { inner, outer, from, to }) => sum + Math.PI * (outer ** 2 - inner ** 2) * (to - from),
    0,
  );

/** Expects the shown shape, at every turn, to be inside the checked body or within its chord error. */
export function expectSpinsInside(
  solid: BuiltSolid,
  corner: Corner,
  random: () => number,
  about: string,
): void {
  expect(solid.shown, about).toBeDefined();
  const shown = solid.shown!;
  expect(closedOutwardProblems(shown), about).toEqual([]);
  const places = pointsIn(shown, invert(vehicleFromWheelAxis(corner.suspension))).map(besideY);
  for (let turns = 0; turns < 3; turns++) {
    const cut = cutAt(solid.mesh, corner, between(random, 0, 2 * Math.PI));
    const furthestOut = places.reduce(
      (worst, place) => Math.max(worst, signedDistanceToCut(place, cut)),
      -Infinity,
    );
    expect(furthestOut, about).toBeLessThanOrEqual(solid.chordErrorMm);
  }
}
