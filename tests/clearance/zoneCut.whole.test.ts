import { describe, expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { closestOnTree } from '../../src/clearance/closestPoint.ts';
import { measure } from '../../src/clearance/query.ts';
import { buildTree } from '../../src/clearance/tree.ts';
import { weld } from '../../src/clearance/weld.ts';
import { cutZones, distanceOutside } from '../../src/clearance/zoneCut.ts';
import { identity, rotationAbout, translation } from '../../src/math/rigid.ts';
import { normalize, type Vec3 } from '../../src/math/vec.ts';
import type { Mesh, Zone } from '../../src/solids/solid.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { box, merged, moved, ring, rod, sphere, torus } from '../oracles/shapes.ts';

const TOLERANCE = 0.01;
const ball = (radiusMm: number, centre: Vec3 = [0, 0, 0]): Zone => ({ shape: 'sphere', centre, radiusMm });

function randomZone(random: () => number, sizeMm: number): Zone {
  const some = (): number => between(random, -sizeMm, sizeMm);
  const centre: Vec3 = [some(), some(), some()];
  const radiusMm = between(random, 0.05, 1) * sizeMm;
  if (random() < 0.5) return { shape: 'sphere', centre, radiusMm };
  const axis: Vec3 = random() < 0.3 ? [0, 0, 2] : normalize([some(), some(), some()]);
  return { shape: 'slab', centre, axis, radiusMm, halfThicknessMm: between(random, 0.02, 0.7) * sizeMm };
}

/** `each` random points on every triangle of the surface. */
function somePoints({ positions: p, triangles }: Mesh, random: () => number, each: number): Vec3[] {
  const points: Vec3[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => 3 * triangles[t + k]);
    for (let n = 0; n < each; n++) {
      const u = random();
      const v = random() * (1 - u);
      const [x, y, z] = [0, 1, 2].map(
        (k) => p[a + k] + u * (p[b + k] - p[a + k]) + v * (p[c + k] - p[a + k]),
      );
      points.push([x, y, z]);
    }
  }
  return points;
}

const SHAPES: Record<string, Mesh> = {
  box: box(20, 14, 8),
  rod: rod(4, -15, 15, 24),
  sphere: sphere(10, 24),
  torus: torus(12, 4, 24, 12),
  washer: ring(
    [
      [6, -1],
      [14, -1],
      [14, 1],
      [6, 1],
    ],
    32,
  ),
};

describe('surface after a zone cut', () => {
  it.each(Object.entries(SHAPES))('%s: loses nothing outside, keeps nothing deep inside', (name, mesh) => {
    let cuts = 0;
    for (let seed = 1; seed <= 16; seed++) {
      const random = mulberry32(seed);
      const zones =
        seed % 3 === 0 ? [randomZone(random, 12), randomZone(random, 12)] : [randomZone(random, 12)];
      const welded = weld(mesh);
      const cut = cutZones(welded, zones, TOLERANCE);
      const where = `${name}, seed ${seed}`;
      if (cut.mesh === welded) continue;
      cuts++;
      expect(cut.errorMm, where).toBeLessThanOrEqual(TOLERANCE);
      const outsideMm = distanceOutside(zones);
      const left = buildTree(cut.mesh);
      for (const [x, y, z] of somePoints(welded, random, 8)) {
        if (outsideMm(x, y, z) <= 0) continue;
        const off = Math.sqrt(closestOnTree(left, x, y, z, Infinity));
        expect(off, `${where}: surface lost at ${x} ${y} ${z}`).toBeLessThan(1e-9);
      }
      const whole = buildTree(welded);
      for (const [x, y, z] of somePoints(cut.mesh, random, 1)) {
        expect(-outsideMm(x, y, z), `${where}: kept inside`).toBeLessThanOrEqual(cut.errorMm + 1e-9);
        expect(Math.sqrt(closestOnTree(whole, x, y, z, Infinity)), where).toBeLessThan(1e-9);
      }
    }
    expect(cuts).toBeGreaterThan(6);
  });

  it.each(Object.entries(SHAPES))('%s: open along the edge of the zone and nowhere else', (name, mesh) => {
    for (let seed = 1; seed <= 25; seed++) {
      const zone = randomZone(mulberry32(seed), 12);
      const { positions: p, triangles } = cutZones(weld(mesh), [zone], TOLERANCE).mesh;
      const edges = new Map<string, number>();
      for (let t = 0; t < triangles.length; t += 3) {
        for (let k = 0; k < 3; k++) {
          const [v, w] = [triangles[t + k], triangles[t + ((k + 1) % 3)]];
          const key = `${Math.min(v, w)} ${Math.max(v, w)}`;
          edges.set(key, (edges.get(key) ?? 0) + (v < w ? 1 : -1));
        }
      }
      for (const [key, balance] of edges) {
        if (balance === 0) continue;
        for (const v of key.split(' ').map(Number)) {
          const outside = distanceOutside([zone])(p[3 * v], p[3 * v + 1], p[3 * v + 2]);
          expect(Math.abs(outside), `${name}, seed ${seed}: a crack at vertex ${v}`).toBeLessThan(1e-9);
        }
      }
    }
  });

  it('is the mesh itself if no zone meets it', () => {
    const mesh = weld(SHAPES.box);
    expect(cutZones(mesh, [], TOLERANCE)).toEqual({ mesh, errorMm: 0 });
    expect(cutZones(mesh, [ball(5, [100, 0, 0])], TOLERANCE).mesh).toBe(mesh);
    // Inside a large box, away from its faces.
    expect(cutZones(mesh, [ball(3)], TOLERANCE).mesh).toBe(mesh);
  });
  it('is empty if a zone contains it', () => {
    expect(cutZones(weld(SHAPES.box), [ball(50)], TOLERANCE).mesh.triangles.length).toBe(0);
  });
  it('has few more triangles than before', () => {
    const mesh = weld(rod(12, -100, 100, 64));
    const { triangles } = cutZones(mesh, [ball(30, [0, 0, 100])], TOLERANCE).mesh;
    expect(triangles.length / 3).toBeLessThan(1500);
  });
  it('has a hole that is round within tolerance: its area is that of the disc', () => {
    const { mesh } = cutZones(weld(box(200, 200, 10)), [ball(30, [0, 0, 5])], 0.001);
    let twice = 0;
    for (let t = 0; t < mesh.triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => 3 * mesh.triangles[t + k]);
      const p = mesh.positions;
      if (p[a + 2] !== 5 || p[b + 2] !== 5 || p[c + 2] !== 5) continue;
      twice += (p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[c] - p[a]) * (p[b + 1] - p[a + 1]);
    }
    const cutAway = 200 * 200 - twice / 2;
    expect(cutAway).toBeLessThanOrEqual(Math.PI * 30 ** 2);
    expect(cutAway).toBeGreaterThan(Math.PI * (30 - 0.001) ** 2);
  });
  it('rejects a zone without size or axis', () => {
    const mesh = weld(SHAPES.box);
    const slab: Zone = { shape: 'slab', centre: [0, 0, 0], axis: [0, 0, 1], halfThicknessMm: 1, radiusMm: 1 };
    for (const zone of [
      ball(0),
      ball(Number.NaN),
      { ...slab, halfThicknessMm: 0 },
      { ...slab, axis: [0, 0, 0] as const },
    ])
      expect(() => cutZones(mesh, [zone], TOLERANCE)).toThrow(RangeError);
  });
});

describe('pieces after a zone cut', () => {
  it('a rod cut through the middle has two pieces, each with its end as its point', () => {
    const body = prepareBody(rod(4, -50, 50, 32), { chordErrorMm: 0, zones: [ball(10)] });
    expect(body.pieces.length).toBe(6);
    expect([body.pieces[2], body.pieces[5]].map(Math.abs)).toEqual([50, 50]);
    expect(body.faces.length).toBe(18);
    expect(body.closed).toBe(true);
  });
  it('a plate with a hole is one piece, two bodies are two', () => {
    expect(prepareBody(box(50, 50, 4), { chordErrorMm: 0, zones: [ball(10)] }).pieces.length).toBe(3);
    const two = merged(box(2, 2, 2), moved(box(2, 2, 2), translation([9, 0, 0])));
    expect(prepareBody(two, { chordErrorMm: 0 }).pieces.length).toBe(6);
  });
});

describe('two rods of radius r at a joint, with everything within R cut away', () => {
  const [r, R] = [10, 30];
  const segments = 128;
  const chordErrorMm = r * (1 - Math.cos(Math.PI / segments));
  // Two orientations: along z, and rotated so that nothing is along an axis.
  const one = rod(r, -12, 200, segments);
  const ready = prepareBody(one, { chordErrorMm, zones: [ball(R)] });

  it.each([20, 40, 41.5, 60, 90, 120, 150, 160])('at %d degrees', (degrees) => {
    const angle = (degrees * Math.PI) / 180;
    // Where the rods leave the sphere, their near sides are at atan(r / sqrt(R^2 - r^2)) from their axes.
    const side = Math.asin(r / R);
    const found = measure(ready, ready, rotationAbout([0, 0, 0], normalize([1, 0.3, 0]), angle));
    if (angle <= 2 * side) {
      expect(found.kind).toBe('overlapping');
      return;
    }
    expect(found.kind).toBe('separated');
    if (found.kind !== 'separated') return;
    expect(found.errorMm).toBeLessThan(0.03);
    expect(Math.abs(found.distanceMm - 2 * R * Math.sin(angle / 2 - side))).toBeLessThanOrEqual(
      found.errorMm,
    );
  });

  it('overlap at every angle without the zone', () => {
    const whole = prepareBody(one, { chordErrorMm });
    for (const degrees of [20, 90, 160]) {
      const turn = rotationAbout([0, 0, 0], [1, 0, 0], (degrees * Math.PI) / 180);
      expect(measure(whole, whole, turn).kind).toBe('overlapping');
    }
  });

  it('overlap if an arm hits outside the zone', () => {
    const bracket = prepareBody(merged(one, moved(box(20, 20, 20), translation([0, 60, 60]))), {
      chordErrorMm,
      zones: [ball(R)],
    });
    const turn = rotationAbout([0, 0, 0], [1, 0, 0], -Math.PI / 4);
    expect(measure(bracket, ready, turn).kind).toBe('overlapping');
  });
});

describe('two discs bolted face to face', () => {
  const lower = moved(rod(60, -10, 0, 96), identity());
  const upper = rod(60, 0, 10, 96);
  const slab = (radiusMm: number): Zone => ({
    shape: 'slab',
    centre: [0, 0, 0],
    axis: [0, 0, 1],
    halfThicknessMm: 1.5,
    radiusMm,
  });
  const clearanceWith = (zones: readonly Zone[], tiltDeg = 0) =>
    measure(
      prepareBody(lower, { chordErrorMm: 0, zones }),
      prepareBody(upper, { chordErrorMm: 0, zones }),
      rotationAbout([0, 0, 0], [1, 0, 0], (tiltDeg * Math.PI) / 180),
    );
  it('touch without a zone', () => {
    expect(clearanceWith([]).kind).toBe('touching');
  });
  it("are separated by the slab's thickness if it covers the joint", () => {
    const found = clearanceWith([slab(61)]);
    expect(found.kind).toBe('separated');
    if (found.kind !== 'separated') return;
    expect(Math.abs(found.distanceMm - 3)).toBeLessThanOrEqual(found.errorMm);
    expect(found.errorMm).toBeLessThan(0.03);
  });
  it('touch outside a slab that does not reach the rim', () => {
    expect(clearanceWith([slab(50)]).kind).toBe('touching');
  });
  it('overlap outside the slab if one is tilted into the other', () => {
    expect(clearanceWith([slab(61)], 6).kind).toBe('overlapping');
  });
  it('stay separated if the tilt overlaps only inside the slab', () => {
    expect(clearanceWith([slab(61)], 1).kind).toBe('separated');
  });
});
