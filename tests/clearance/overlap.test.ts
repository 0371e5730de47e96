import { beforeAll, describe, expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import type { Clearance } from '../../src/clearance/clearance.ts';
import { measure } from '../../src/clearance/query.ts';
import { compose, identity, type Rigid, rotationAbout, translation } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { loadModeller, type Modeller } from '../../src/solids/modeller.ts';
import { sharedVolumeMm3 } from '../../src/solids/sharedVolume.ts';
import type { Mesh, Zone } from '../../src/solids/solid.ts';
import { randomRigid } from '../oracles/bruteForce.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import {
  box,
  merged,
  ring,
  rod,
  sphere,
  torus,
  turnedInsideOut,
  withoutTriangle,
} from '../oracles/shapes.ts';

let modeller: Modeller;
beforeAll(async () => {
  modeller = await loadModeller();
});

const of = (a: Mesh, b: Mesh, aFromB: Rigid): Clearance =>
  measure(prepareBody(a, { chordErrorMm: 0 }), prepareBody(b, { chordErrorMm: 0 }), aFromB);

describe('volume that two solids share: manifold-3d in closed form', () => {
  it('a box in the corner of a box', () => {
    const shared = sharedVolumeMm3(modeller, box(20, 20, 20), box(6, 8, 10), translation([9, 10, 12]));
    expect(shared).toBeCloseTo(4 * 4 * 3, 6);
  });
  it('two balls: the lens of pi (R + r - d)^2 (d^2 + 2 d (R + r) - 3 (R - r)^2) / 12 d', () => {
    // mathworld.wolfram.com/Sphere-SphereIntersection.html, from memory.
    const [R, r, d] = [10, 6, 12];
    const lens = (Math.PI * (R + r - d) ** 2 * (d * d + 2 * d * (R + r) - 3 * (R - r) ** 2)) / (12 * d);
    const short = [48, 96].map(
      (n) => lens - sharedVolumeMm3(modeller, sphere(R, n), sphere(r, n), translation([d, 0, 0])),
    );
    // Inscribed meshes give too small a volume; the error is a quarter with twice the sides.
    expect(short[1]).toBeGreaterThan(0);
    expect(short[1]).toBeLessThan(0.01 * lens);
    expect(short[0] / short[1]).toBeGreaterThan(3.7);
    expect(short[0] / short[1]).toBeLessThan(4.3);
  });
  it('two rods of r 10 crossing at a right angle: 16 r^3 / 3 (Steinmetz)', () => {
    const across = rotationAbout([0, 0, 0], [0, 1, 0], Math.PI / 2);
    const short = [64, 128].map(
      (n) => (16 * 1000) / 3 - sharedVolumeMm3(modeller, rod(10, -30, 30, n), rod(10, -30, 30, n), across),
    );
    expect(short[1]).toBeGreaterThan(0);
    expect(short[0] / short[1]).toBeGreaterThan(3.7);
    expect(short[0] / short[1]).toBeLessThan(4.3);
  });
  it('outside zones: the same crossing rods with a ball of r 4 and a disc cut out of both', () => {
    // The whole ball is in both rods, and so is the whole disc, of r 3 and 2 x 1 thick, perpendicular to one of them.
    const across = rotationAbout([0, 0, 0], [0, 1, 0], Math.PI / 2);
    const shared = (zones: readonly Zone[]) =>
      sharedVolumeMm3(modeller, rod(10, -30, 30, 64), rod(10, -30, 30, 64), across, zones);
    const whole = shared([]);
    const ball: Zone = { shape: 'sphere', centre: [0, 0, 0], radiusMm: 4 };
    const disc: Zone = { shape: 'slab', centre: [0, 0, 0], axis: [0, 0, 1], radiusMm: 3, halfThicknessMm: 1 };
    expect(whole - shared([ball])).toBeCloseTo((4 / 3) * Math.PI * 64, -1);
    expect((whole - shared([ball])) / ((4 / 3) * Math.PI * 64)).toBeCloseTo(1, 1);
    // A zone moves with both bodies, so the turned rod also loses the turned disc: two perpendicular discs of r 3, 2
    // thick.
    const common = shared([disc]);
    expect(whole - common).toBeGreaterThan(Math.PI * 9 * 2);
    expect(whole - common).toBeLessThan(2 * Math.PI * 9 * 2);
  });
  it('rejects a mesh that is not closed', () => {
    expect(() =>
      sharedVolumeMm3(modeller, withoutTriangle(box(2, 2, 2), 3), box(1, 1, 1), identity()),
    ).toThrow();
  });
});

describe('nested, crossing or apart, against manifold-3d', () => {
  const tube = ring(
    [
      [14, -20],
      [24, -20],
      [24, 20],
      [14, 20],
    ],
    24,
  );
  const hollow = merged(sphere(24, 20), turnedInsideOut(sphere(15, 20)));
  const large: [string, Mesh][] = [
    ['box', box(40, 40, 40)],
    ['tube', tube],
    ['torus', torus(18, 6, 24, 12)],
    ['hollow ball', hollow],
  ];
  const small: Mesh[] = [box(2, 3, 4), sphere(2, 8), rod(1, -3, 3, 8)];

  it.each(large)('small parts anywhere in and around a %s', (name, mesh) => {
    const counts = { nested: 0, apart: 0, crossing: 0 };
    for (let seed = 1; seed <= 90; seed++) {
      const part = small[seed % 3];
      const aFromB = randomRigid(mulberry32(seed), 24);
      const found = of(mesh, part, aFromB);
      const shared = sharedVolumeMm3(modeller, mesh, part, aFromB);
      const where = `${name}, seed ${seed}: ${found.kind}, shared ${shared}`;
      expect(found.kind, where).toBe(shared > 0 ? 'overlapping' : 'separated');
      const whole = sharedVolumeMm3(modeller, part, part, identity());
      counts[shared === 0 ? 'apart' : shared > whole * (1 - 1e-6) ? 'nested' : 'crossing']++;
    }
    for (const [kind, count] of Object.entries(counts)) expect(count, `${name}: ${kind}`).toBeGreaterThan(3);
  });
});

describe('depth converges to the closed form as the meshes are refined', () => {
  const chord = (radius: number, sides: number) => radius * (1 - Math.cos(Math.PI / sides));
  const bore = (sides: number) =>
    ring(
      [
        [20, -30],
        [30, -30],
        [30, 30],
        [20, 30],
      ],
      sides,
    );
  // Name, the pair for a number of sides, position of the second, depth, and the radius whose chord error counts.
  const cases: [string, (sides: number) => [Mesh, Mesh], Vec3, number, number][] = [
    ['ball r 5 sunk 2 into a box', (n) => [box(40, 40, 40), sphere(5, n)], [23, 0, 0], 2, 2 * 5],
    ['box sunk 1.5 into a box', () => [box(40, 40, 40), box(4, 4, 4)], [20.5, 1, 2], 1.5, 0],
    [
      'rod r 8 sunk 1.25 into the wall of a bore r 20',
      (n) => [bore(n), rod(8, -10, 10, n)],
      [13.25, 0, 0],
      1.25,
      28,
    ],
  ];
  it.each(cases)('%s', (_, pair, at, depth, radius) => {
    const turn = rotationAbout([0, 0, 0], [0, 0, 1], between(mulberry32(7), 0, 1));
    for (const sides of [24, 64, 160]) {
      const [a, b] = pair(sides);
      const found = of(a, b, compose(translation(at), radius === 0 ? identity() : turn));
      if (found.kind !== 'overlapping') throw new Error(found.kind);
      const boundMm = found.errorMm + (radius === 0 ? 0 : chord(radius, sides));
      expect(Math.abs(-found.distanceMm - depth), `${sides} sides`).toBeLessThanOrEqual(boundMm + 1e-9);
    }
  });
});
