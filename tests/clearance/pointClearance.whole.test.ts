import { describe, expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import {
  clearanceAt,
  type Neighbour,
  outsideCutZones,
  pointResult,
} from '../../src/clearance/pointClearance.ts';
import { applyPoint, identity, invert } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import type { Mesh, Zone } from '../../src/solids/solid.ts';
import { bruteForcePointDistance, randomRigid } from '../oracles/bruteForce.ts';
import { between, cases, mulberry32 } from '../oracles/random.ts';
import { box, capsule, moved, rod } from '../oracles/shapes.ts';

const SEED = 9071;
const LIMIT_MM = 60;

const neighbour = (mesh: Mesh, more: Partial<Neighbour> = {}, zones: readonly Zone[] = []): Neighbour => ({
  body: prepareBody(mesh, { zones, chordErrorMm: 0 }),
  neighbourFromThis: identity(),
  outsideZonesMm: outsideCutZones(zones, 0),
  requiredMm: 5,
  mayOverlap: true,
  ...more,
});

describe(`clearance at a point (seed ${SEED})`, () => {
  const random = mulberry32(SEED);

  it('is the distance to the nearest part, against every triangle', () => {
    const meshes = [box(30, 40, 50), rod(10, -60, 60, 24), capsule(12, 50, 16)];
    for (let round = 0; round < cases(100, 300); round++) {
      const posed = meshes.map((mesh) => ({
        mesh,
        at: randomRigid(random, 90),
        requiredMm: between(random, 0, 20),
      }));
      const neighbours = posed.map(({ mesh, at, requiredMm }) =>
        neighbour(mesh, { neighbourFromThis: invert(at), requiredMm, mayOverlap: random() < 0.5 }),
      );
      const p: Vec3 = [between(random, -90, 90), between(random, -90, 90), between(random, -90, 90)];
      const away = posed.map(({ mesh, at }) => bruteForcePointDistance(moved(mesh, at), p));
      // The shapes are convex: a point is inside if it is behind every face.
      const isInside = posed.map(({ mesh, at }) => insideConvex(mesh, applyPoint(invert(at), p)));
      if (isInside.some((inside, i) => inside && !neighbours[i].mayOverlap)) continue;
      const signed = away.map((mm, i) => (isInside[i] ? -mm : mm));
      clearanceAt(neighbours, ...p, LIMIT_MM);
      expect(pointResult.clearanceMm).toBeCloseTo(Math.min(LIMIT_MM, ...signed), 8);
      const margins = signed.map((mm, i) => mm - posed[i].requiredMm);
      const leastMargin = Math.min(...margins.filter((_, i) => signed[i] < LIMIT_MM), LIMIT_MM);
      expect(pointResult.marginMm).toBeCloseTo(leastMargin, 8);
      expect(pointResult.atLeastMm).toBeLessThanOrEqual(Math.min(...signed) + 1e-8);
      if (pointResult.nearest >= 0)
        expect(signed[pointResult.nearest]).toBeCloseTo(pointResult.clearanceMm, 8);
      else expect(Math.min(...signed)).toBeGreaterThanOrEqual(LIMIT_MM - 1e-9);
    }
  });

  it('excludes only a part with which contact is intended', () => {
    const zones: Zone[] = [{ shape: 'sphere', centre: [0, 0, 20], radiusMm: 8 }];
    const block = neighbour(box(40, 40, 40), {}, zones);
    const far = neighbour(moved(box(10, 10, 10), Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 45)));
    clearanceAt([block, far], 0, 0, 21, LIMIT_MM);
    expect(pointResult.clearanceMm).toBeCloseTo(45 - 5 - 21, 9);
    expect(pointResult.nearest).toBe(1);
    expect(pointResult.excludedMask).toBe(0b01);
    clearanceAt([far, block], 0, 0, 21, LIMIT_MM);
    expect(pointResult.excludedMask).toBe(0b10);
    clearanceAt([block, far], 15, 0, 21, LIMIT_MM);
    expect(pointResult.clearanceMm).toBeCloseTo(1, 9);
    expect(pointResult.nearest).toBe(0);
    expect(pointResult.excludedMask).toBe(0);
  });

  it('is minus the depth inside a part', () => {
    clearanceAt([neighbour(box(40, 40, 40))], 0, 0, 17, LIMIT_MM);
    expect(pointResult.clearanceMm).toBeCloseTo(-3, 9);
    expect(pointResult.marginMm).toBeCloseTo(-8, 9);
  });

  it('is the limit if nothing is near, with a lower bound of all distances', () => {
    clearanceAt([neighbour(box(40, 40, 40))], 0, 0, 220, LIMIT_MM);
    expect(pointResult).toMatchObject({
      clearanceMm: LIMIT_MM,
      marginMm: LIMIT_MM,
      nearest: -1,
      atLeastMm: 200,
    });
  });
});

function insideConvex({ positions: p, triangles }: Mesh, [x, y, z]: Vec3): boolean {
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t], triangles[t + 1], triangles[t + 2]].map((v) => 3 * v);
    const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    const height =
      (uy * vz - uz * vy) * (x - p[a]) +
      (uz * vx - ux * vz) * (y - p[a + 1]) +
      (ux * vy - uy * vx) * (z - p[a + 2]);
    if (height > 0) return false;
  }
  return true;
}
