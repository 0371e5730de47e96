import { describe, expect, it } from 'vitest';
import { isClosed } from '../../../src/clearance/weld.ts';
import { constant, scale } from '../../../src/math/taylorModel.ts';
import type { Vec3 } from '../../../src/math/vec.ts';
import { SpunBody } from '../../../src/studies/sweptSpace/spunBody.ts';
import type { SweptSolid } from '../../../src/studies/sweptSpace/sweepBody.ts';
import { mulberry32 } from '../../oracles/random.ts';
import { goesRound, surfaceArea } from './solidChecks.ts';
import { aboutZ, BoxBody, ballProfile, cellsOf, sweepBody, UNTURNED } from './sweptBodies.ts';

const ZERO = constant(0);
const ball = (radiusMm: number) => new SpunBody([{ outline: ballProfile(radiusMm), growthMm: 0 }]);

interface Case {
  what: string;
  exactMm3: number;
  withinMm: number;
  solid(withinMm: number): SweptSolid;
  /** A point of the swept body, from five random numbers. */
  point(r: readonly number[]): Vec3;
  /** Distance of a point from the swept body. */
  distance(p: Vec3): number;
}

/** A random point of a ball. */
const inBall = (radiusMm: number, [a, b, c]: readonly number[]): Vec3 => {
  const r = radiusMm * Math.cbrt(a);
  const z = 2 * b - 1;
  const around = 2 * Math.PI * c;
  return [r * Math.sqrt(1 - z * z) * Math.cos(around), r * Math.sqrt(1 - z * z) * Math.sin(around), r * z];
};
const clamp = (x: number, low: number, high: number) => Math.min(Math.max(x, low), high);
const DEG = Math.PI / 180;

const CASES: Case[] = [
  {
    what: 'a ball along a line',
    exactMm3: 8377.58041,
    withinMm: 4,
    solid(withinMm) {
      const body = ball(5);
      const range = { travelMm: 50, travelHalfMm: 50, steer: 0, steerHalf: 0 };
      return sweepBody(
        body,
        cellsOf(body, range, (x) => ({ rows: UNTURNED, from: [0, 0, 0], to: [x, ZERO, ZERO] })),
        withinMm,
      );
    },
    point(r) {
      const [x, y, z] = inBall(5, r);
      return [x + 100 * r[3], y, z];
    },
    distance: ([x, y, z]) => Math.hypot(x - clamp(x, 0, 100), y, z) - 5,
  },
  {
    what: 'a ball along an arc',
    exactMm3: 8748.26911,
    withinMm: 4,
    solid(withinMm) {
      const body = ball(5);
      const range = { travelMm: 0.5, travelHalfMm: 0.5, steer: 0, steerHalf: 0 };
      return sweepBody(
        body,
        cellsOf(body, range, (x) => {
          const rows = aboutZ(scale(x, 60 * DEG));
          return { rows, from: [0, 0, 0], to: [scale(rows[0][0], 100), scale(rows[1][0], 100), ZERO] };
        }),
        withinMm,
      );
    },
    point(r) {
      const [x, y, z] = inBall(5, r);
      const angle = 60 * DEG * r[3];
      return [x + 100 * Math.cos(angle), y + 100 * Math.sin(angle), z];
    },
    distance([x, y, z]) {
      const angle = clamp(Math.atan2(y, x), 0, 60 * DEG);
      return Math.hypot(x - 100 * Math.cos(angle), y - 100 * Math.sin(angle), z) - 5;
    },
  },
  {
    what: 'a ball over a rectangle',
    exactMm3: 73089.96939,
    withinMm: 5,
    solid(withinMm) {
      const body = ball(5);
      const range = { travelMm: 50, travelHalfMm: 50, steer: 0.5, steerHalf: 0.5 };
      return sweepBody(
        body,
        cellsOf(body, range, (x, y) => ({ rows: UNTURNED, from: [0, 0, 0], to: [x, scale(y, 60), ZERO] })),
        withinMm,
      );
    },
    point(r) {
      const [x, y, z] = inBall(5, r);
      return [x + 100 * r[3], y + 60 * r[4], z];
    },
    distance: ([x, y, z]) => Math.hypot(x - clamp(x, 0, 100), y - clamp(y, 0, 60), z) - 5,
  },
  {
    what: 'a ball on a hinge that slides',
    exactMm3: 1741832.392985,
    withinMm: 16,
    solid(withinMm) {
      const body = ball(20);
      const range = { travelMm: 75, travelHalfMm: 75, steer: 0.5, steerHalf: 0.5 };
      return sweepBody(
        body,
        cellsOf(body, range, (x, y) => {
          const rows = aboutZ(scale(y, 30 * DEG));
          return { rows, from: [0, 0, 0], to: [scale(rows[0][0], 400), scale(rows[1][0], 400), x] };
        }),
        withinMm,
      );
    },
    point(r) {
      const [x, y, z] = inBall(20, r);
      const angle = 30 * DEG * r[3];
      return [x + 400 * Math.cos(angle), y + 400 * Math.sin(angle), z + 150 * r[4]];
    },
    distance([x, y, z]) {
      const angle = clamp(Math.atan2(y, x), 0, 30 * DEG);
      return Math.hypot(x - 400 * Math.cos(angle), y - 400 * Math.sin(angle), z - clamp(z, 0, 150)) - 20;
    },
  },
  {
    what: 'a disc spun about a diameter',
    exactMm3: 14231414.7208,
    withinMm: 40,
    solid(withinMm) {
      const body = new SpunBody([
        {
          outline: [
            [0, -10],
            [150, -10],
            [150, 10],
            [0, 10],
          ],
          growthMm: 0,
        },
      ]);
      const range = { travelMm: 0.5, travelHalfMm: 0.5, steer: 0, steerHalf: 0 };
      return sweepBody(
        body,
        cellsOf(body, range, (x) => ({
          rows: aboutZ(scale(x, Math.PI)),
          from: [0, 0, 0],
          to: [ZERO, ZERO, ZERO],
        })),
        withinMm,
      );
    },
    // A ball of radius sqrt(150^2 + 10^2), cut by the planes z = +-150.
    point(r) {
      const angle = Math.PI * r[0];
      const radius = 150 * Math.sqrt(r[1]);
      const around = 2 * Math.PI * r[2];
      const [along, across, z] = [radius * Math.cos(around), 20 * r[3] - 10, radius * Math.sin(around)];
      return [
        along * Math.cos(angle) - across * Math.sin(angle),
        along * Math.sin(angle) + across * Math.cos(angle),
        z,
      ];
    },
    distance([x, y, z]) {
      const round = Math.hypot(x, y);
      const [reach, height] = [Math.hypot(150, 10), Math.abs(z)];
      // The disc's rim at height z is at sqrt(150^2 - z^2) along and 10 across: rho(z)^2 = 150^2 - z^2 + 10^2.
      if (height <= 150) {
        const rho = Math.sqrt(reach ** 2 - height ** 2);
        if (round <= rho) return -1;
      }
      const direct = Math.hypot(round, z) - reach;
      const atHeight = (reach * height) / Math.hypot(round, z);
      if (atHeight <= 150) return direct;
      return round <= 10 ? height - 150 : Math.hypot(round - 10, height - 150);
    },
  },
  {
    what: 'a square plate turned about its axis',
    exactMm3: 251129.91663,
    withinMm: 12,
    solid(withinMm) {
      const body = new BoxBody(50, 50, 10);
      const range = { travelMm: 0.5, travelHalfMm: 0.5, steer: 0, steerHalf: 0 };
      return sweepBody(
        body,
        cellsOf(body, range, (x) => ({
          rows: aboutZ(scale(x, 30 * DEG)),
          from: [0, 0, 0],
          to: [ZERO, ZERO, ZERO],
        })),
        withinMm,
      );
    },
    point(r) {
      const angle = 30 * DEG * r[3];
      const [x, y] = [100 * r[0] - 50, 100 * r[1] - 50];
      return [
        x * Math.cos(angle) - y * Math.sin(angle),
        x * Math.sin(angle) + y * Math.cos(angle),
        20 * r[2] - 10,
      ];
    },
    distance([x, y, z]) {
      let least = Number.POSITIVE_INFINITY;
      for (let k = 0; k <= 300; k++) {
        const angle = (-30 * DEG * k) / 300;
        const px = Math.abs(x * Math.cos(angle) - y * Math.sin(angle)) - 50;
        const py = Math.abs(x * Math.sin(angle) + y * Math.cos(angle)) - 50;
        const pz = Math.abs(z) - 10;
        const outside = Math.hypot(Math.max(px, 0), Math.max(py, 0), Math.max(pz, 0));
        least = Math.min(least, outside);
      }
      return least;
    },
  },
];

describe('solids of swept bodies in closed form', () => {
  it.each(CASES)('contains $what, within the stated bound', (one) => {
    const { withinMm } = one;
    const solid = one.solid(withinMm);
    const { mesh, volumeMm3 } = solid;
    expect(isClosed(mesh)).toBe(true);
    expect(volumeMm3).toBeGreaterThan(one.exactMm3);
    expect(volumeMm3).toBeLessThan(one.exactMm3 + withinMm * surfaceArea(mesh));
    const seed = 20261201;
    const next = mulberry32(seed);
    for (let k = 0; k < 60; k++) {
      const point = one.point([next(), next(), next(), next(), next()]);
      expect(one.distance(point), `the test's own point, seed ${seed}, ${k}`).toBeLessThan(1e-6);
      expect(goesRound(mesh, point), `seed ${seed}, point ${k}`).toBe(1);
    }
    for (let v = 0; v < mesh.positions.length; v += 3) {
      const distance = one.distance([mesh.positions[v], mesh.positions[v + 1], mesh.positions[v + 2]]);
      if (!(distance > 0 && distance <= withinMm)) expect.fail(`vertex ${v / 3} is ${distance} mm outside`);
    }
  });

  it('needs a smaller grid for a smaller bound, and comes nearer to the volume', () => {
    const [coarse, fine] = [6, 3].map((withinMm) => CASES[0].solid(withinMm));
    expect(fine.volumeMm3).toBeLessThan(coarse.volumeMm3);
    expect(fine.mesh.triangles.length).toBeGreaterThan(coarse.mesh.triangles.length);
  });
});
