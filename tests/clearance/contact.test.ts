import Module from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { contactOf, contactReach, type Extent } from '../../src/clearance/contact.ts';
import type { Contact } from '../../src/clearance/joinSegments.ts';
import { forEachNearPair, roundingAt } from '../../src/clearance/nearPairs.ts';
import { measure } from '../../src/clearance/query.ts';
import {
  applyPoint,
  compose,
  identity,
  invert,
  type Rigid,
  rotationAbout,
  translation,
} from '../../src/math/rigid.ts';
import { distance, type Vec3 } from '../../src/math/vec.ts';
import { matrix16 } from '../../src/solids/modeller.ts';
import type { Mesh, Zone } from '../../src/solids/solid.ts';
import { bruteForcePointDistance, randomRigid } from '../oracles/bruteForce.ts';
import { nearPartOfVectors, type Triangle } from '../oracles/nearPartOfVectors.ts';
import { mulberry32 } from '../oracles/random.ts';
import { box, moved, rod, sphere, torus } from '../oracles/shapes.ts';

const tree = (mesh: Mesh, zones: readonly Zone[] = []) =>
  prepareBody(mesh, { chordErrorMm: 0, zones }).surface;
const contact = (a: Mesh, b: Mesh, aFromB: Rigid = identity()): Contact =>
  contactOf(tree(a), tree(b), aFromB);
const isClosed = (line: readonly Vec3[]): boolean => line.length > 3 && line[0] === line[line.length - 1];
const chord = (radius: number, segments: number): number => radius * (1 - Math.cos(Math.PI / segments));

/** Extent of a contact curve in another frame; undefined for an empty curve. */
function extentOf({ lines }: Contact, frameFromA: Rigid): Extent | undefined {
  const points = lines.flat().map((point) => applyPoint(frameFromA, point));
  if (points.length === 0) return undefined;
  const along = (k: number) => points.map((point) => point[k]);
  return {
    low: [Math.min(...along(0)), Math.min(...along(1)), Math.min(...along(2))],
    high: [Math.max(...along(0)), Math.max(...along(1)), Math.max(...along(2))],
  };
}

function expectExtent(extent: Extent | undefined, low: Vec3, high: Vec3): void {
  for (const k of [0, 1, 2]) {
    expect(extent?.low[k]).toBeCloseTo(low[k], 9);
    expect(extent?.high[k]).toBeCloseTo(high[k], 9);
  }
}

describe('contact curve in closed form', () => {
  it('a box sunk into a face: the outline of the box', () => {
    for (const turn of [0, 0.3, 1.1]) {
      const spin = rotationAbout([0, 0, 0], [0, 0, 1], turn);
      const found = contact(box(40, 40, 20), box(6, 4, 4), compose(spin, translation([3, 2, 10])));
      expect(found.lines).toHaveLength(1);
      expect(isClosed(found.lines[0])).toBe(true);
      expect(found.lengthMm).toBeCloseTo(20, 9);
      const extent = extentOf(found, invert(spin));
      expectExtent(extent, [0, 0, 10], [6, 4, 10]);
    }
  });
  it('a box through a plate: two outlines', () => {
    const found = contact(box(40, 40, 4), box(6, 4, 30), rotationAbout([0, 0, 0], [0, 0, 1], 0.2));
    expect(found.lines.map(isClosed)).toEqual([true, true]);
    expect(found.lengthMm).toBeCloseTo(40, 9);
  });
  it('a ball r 10 cut by a face at 6: a circle of r 8', () => {
    const found = contact(box(60, 60, 20), sphere(10, 96), compose(translation([0, 0, 16]), randomTurn(3)));
    expect(found.lines.map(isClosed)).toEqual([true]);
    const radius = { least: 8 - 3 * chord(10, 96), most: 8 + 1e-9 };
    for (const [x, y, z] of found.lines[0]) {
      expect(z).toBeCloseTo(10, 9);
      expect(Math.hypot(x, y)).toBeGreaterThan(radius.least);
      expect(Math.hypot(x, y)).toBeLessThan(radius.most);
    }
    expect(found.lengthMm).toBeGreaterThan(2 * Math.PI * radius.least);
    expect(found.lengthMm).toBeLessThan(2 * Math.PI * radius.most);
  });
  it('two rods of r 10 crossing at a right angle: two ellipses, of half axes 10 and 10 sqrt 2', () => {
    const along = rotationAbout([0, 0, 0], [0, 1, 0], Math.PI / 2);
    const found = contact(
      rod(10, -30, 30, 720),
      rod(10, -30, 30, 720),
      compose(translation([0, 1e-4, 0]), along),
    );
    // Perimeter of an ellipse as a sum, which converges faster than any power for a periodic integrand.
    const steps = 256;
    const perimeter = Array.from({ length: steps }, (_, k) => {
      const u = (2 * Math.PI * k) / steps;
      return (2 * Math.PI * Math.hypot(10 * Math.sin(u), 10 * Math.SQRT2 * Math.cos(u))) / steps;
    }).reduce((a, b) => a + b, 0);
    // Where the ellipses cross, the rods touch along their facets. The curve is open there by the width of a facet.
    expect(Math.abs(found.lengthMm - 2 * perimeter)).toBeLessThan(2 * (20 * Math.sin(Math.PI / 720)));
    const extent = extentOf(found, identity());
    for (const k of [0, 1, 2]) {
      expect(Math.abs((extent?.high[k] ?? 0) - 10)).toBeLessThan(0.001);
      expect(Math.abs((extent?.low[k] ?? 0) + 10)).toBeLessThan(0.001);
    }
  });
  it('a box resting on a face: the outline of the common area', () => {
    const found = contact(box(40, 40, 20), box(6, 4, 4), translation([3, 2, 12]));
    expect(found.lengthMm).toBeCloseTo(20, 9);
    const overhanging = contact(box(10, 10, 10), box(10, 10, 10), translation([4, 3, 10]));
    expect(overhanging.lengthMm).toBeCloseTo(2 * (6 + 7), 9);
    const extent = extentOf(overhanging, identity());
    expectExtent(extent, [-1, -2, 5], [5, 5, 5]);
  });
  it('corner on corner: a point; edge on edge: a line', () => {
    const cube = box(10, 10, 10);
    const corner = contact(cube, cube, translation([10, 10, 10]));
    expect(corner).toEqual({ lines: [[[5, 5, 5]]], lengthMm: 0 });
    const edge = contact(cube, cube, translation([10, 10, 2]));
    expect(edge.lengthMm).toBeCloseTo(8, 9);
  });
  it('apart, or one inside the other: none', () => {
    for (const at of [
      [30, 0, 0],
      [0, 0, 0],
    ] as const) {
      const found = contact(box(20, 20, 20), box(2, 2, 2), translation(at));
      expect(found).toEqual({ lines: [], lengthMm: 0 });
    }
  });
  it('a zone across the curve: an open line that ends at the zone', () => {
    const zone: Zone = { shape: 'sphere', centre: [0, 0, 10], radiusMm: 5 };
    const found = contactOf(
      tree(box(40, 40, 20), [zone]),
      tree(moved(box(20, 4, 4), translation([8, 0, 10])), [zone]),
      identity(),
    );
    expect(found.lines).toHaveLength(1);
    const [line] = found.lines;
    expect(isClosed(line)).toBe(false);
    const y = Math.sqrt(25 - 4);
    for (const end of [line[0], line[line.length - 1]])
      expect(Math.abs(distance(end, [0, 0, 10]) - 5)).toBeLessThan(0.011);
    expect(Math.abs(found.lengthMm - (2 * (18 - y) + 4))).toBeLessThan(0.03);
  });
});

const randomTurn = (seed: number): Rigid => randomRigid(mulberry32(seed), 0);

const SHAPES: Record<string, Mesh> = {
  box: box(8, 5, 3),
  rod: rod(3, -6, 6, 9),
  sphere: sphere(5, 10),
  torus: torus(8, 2, 10, 6),
};
const NAMES = Object.keys(SHAPES);

describe('contact curve of random pairs', () => {
  let wasm: Awaited<ReturnType<typeof Module>>;
  beforeAll(async () => {
    wasm = await Module();
    wasm.setup();
  });

  /** Length of those edges of the common solid at which a face of one body meets a face of the other. */
  function sharedEdgeLengthMm(a: Mesh, b: Mesh, aFromB: Rigid): number {
    const solid = ({ positions, triangles }: Mesh) =>
      new wasm.Manifold(
        new wasm.Mesh({
          numProp: 3,
          vertProperties: Float32Array.from(positions),
          triVerts: triangles.slice(),
        }),
      ).asOriginal();
    const [one, other] = [solid(a), solid(b)];
    const shared = one.intersect(other.transform(matrix16(aFromB)));
    const mesh = shared.getMesh();
    const isOfA = (triangle: number): boolean => {
      let run = 0;
      while (mesh.runIndex[run + 1] <= 3 * triangle) run++;
      return mesh.runOriginalID[run] === one.originalID();
    };
    const seen = new Map<string, boolean>();
    let lengthMm = 0;
    for (let t = 0; t < mesh.triVerts.length; t += 3) {
      for (const [p, q] of [
        [0, 1],
        [1, 2],
        [2, 0],
      ].map((e) => e.map((k) => mesh.triVerts[t + k]))) {
        const neighbour = seen.get(`${q} ${p}`);
        if (neighbour !== undefined && neighbour !== isOfA(t / 3)) {
          const at = (v: number) => mesh.vertProperties.subarray(v * mesh.numProp, v * mesh.numProp + 3);
          lengthMm += Math.hypot(...[0, 1, 2].map((k) => at(p)[k] - at(q)[k]));
        }
        seen.set(`${p} ${q}`, isOfA(t / 3));
      }
    }
    for (const made of [one, other, shared]) made.delete();
    return lengthMm;
  }

  it('lies on both surfaces, closes, and is as long as the edges of the common solid in manifold-3d', () => {
    let lines = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const [nameA, nameB] = [NAMES[seed % 4], NAMES[(seed >> 2) % 4]];
      const [a, b] = [SHAPES[nameA], SHAPES[nameB]];
      const aFromB = randomRigid(mulberry32(seed), 7);
      const where = `${nameA}-${nameB}, seed ${seed}`;
      const found = contact(a, b, aFromB);
      expect(found.lines.every(isClosed), where).toBe(true);
      expect(Math.abs(found.lengthMm - sharedEdgeLengthMm(a, b, aFromB)), where).toBeLessThan(2e-4);
      const bFromA = invert(aFromB);
      const points = found.lines.flat();
      for (let k = 0; k < points.length; k += 19) {
        expect(bruteForcePointDistance(a, points[k]), where).toBeLessThan(1e-11);
        expect(bruteForcePointDistance(b, applyPoint(bFromA, points[k])), where).toBeLessThan(1e-11);
      }
      lines += found.lines.length;
    }
    expect(lines).toBeGreaterThan(30);
  });

  it('is the same curve if the bodies are swapped', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const [a, b] = [SHAPES[NAMES[seed % 4]], SHAPES[NAMES[(seed >> 2) % 4]]];
      const aFromB = randomRigid(mulberry32(seed), 7);
      const there = contact(a, b, aFromB);
      const back = contact(b, a, invert(aFromB));
      expect(back.lengthMm, `seed ${seed}`).toBeCloseTo(there.lengthMm, 9);
      expect(back.lines.length, `seed ${seed}`).toBe(there.lines.length);
    }
  });
});

describe('extent of the possible contact', () => {
  it('contains the curve of the true round bodies, and is close to it', () => {
    // A ball r 10 cut by a face at height h gives a circle of radius sqrt(100 - h^2).
    for (const segments of [16, 64]) {
      for (const height of [0, 5, 9, 9.9]) {
        const errorMm = 2 * chord(10, segments);
        const radius = Math.sqrt(100 - height * height);
        const reach = contactReach(
          tree(box(60, 60, 20)),
          tree(sphere(10, segments)),
          compose(translation([0, 0, 10 + height]), randomTurn(segments)),
          errorMm,
          identity(),
        );
        const where = `${segments} sides, at ${height}`;
        for (const k of [0, 1]) {
          expect(reach?.high[k], where).toBeGreaterThanOrEqual(radius);
          expect(reach?.low[k], where).toBeLessThanOrEqual(-radius);
          // Upper bound: the circle at a height lower by three errors, plus twice the error.
          const widest = Math.sqrt(100 - Math.max(0, height - 3 * errorMm) ** 2) + 2 * errorMm;
          expect(reach?.high[k], where).toBeLessThanOrEqual(widest + 1e-3);
        }
        expect(reach?.high[2], where).toBeLessThanOrEqual(10 + 2 * errorMm + 1e-3);
        expect(reach?.low[2], where).toBeGreaterThanOrEqual(10 - 2 * errorMm - 1e-3);
      }
    }
  });
  it('is undefined if the bodies are further apart than the error', () => {
    const pair = [tree(box(10, 10, 10)), tree(sphere(5, 64))] as const;
    expect(contactReach(...pair, translation([0, 0, 10.2]), 0.1, identity())).toBeUndefined();
    expect(contactReach(...pair, translation([0, 0, 10.05]), 0.1, identity())).toBeDefined();
  });
  it('contains the curve of the meshes: random pairs in a random frame', () => {
    for (let seed = 1; seed <= 30; seed++) {
      const random = mulberry32(seed);
      const [a, b] = [tree(SHAPES[NAMES[seed % 4]]), tree(SHAPES[NAMES[(seed >> 2) % 4]])];
      const aFromB = randomRigid(random, 7);
      const frame = randomRigid(random, 50);
      const extent = extentOf(contactOf(a, b, aFromB), frame);
      const reach = contactReach(a, b, aFromB, 0.01, frame);
      if (extent === undefined) continue;
      for (const k of [0, 1, 2]) {
        expect(reach?.low[k], `seed ${seed}`).toBeLessThanOrEqual(extent.low[k]);
        expect(reach?.high[k], `seed ${seed}`).toBeGreaterThanOrEqual(extent.high[k]);
      }
    }
  });
  it('is defined for every pair closer than the error', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const [a, b] = [SHAPES[NAMES[seed % 4]], SHAPES[NAMES[(seed >> 2) % 4]]];
      const aFromB = randomRigid(mulberry32(500 + seed), 14);
      const found = measure(prepareBody(a, { chordErrorMm: 0 }), prepareBody(b, { chordErrorMm: 0 }), aFromB);
      if (found.kind !== 'separated') continue;
      const at = found.distanceMm;
      expect(contactReach(tree(a), tree(b), aFromB, at + 1e-5, identity()), `seed ${seed}`).toBeDefined();
    }
  });

  it('equals the extent over all pairs of triangles, although most are skipped', () => {
    for (let seed = 71; seed < 79; seed++) {
      const random = mulberry32(seed);
      const aFromB = randomRigid(random, 8);
      const frameFromA = randomRigid(random, 100);
      const [a, b] = [tree(torus(10, 3, 20, 12)), tree(box(8, 8, 8))];
      const errorMm = 0.2;
      const withinMm = errorMm + roundingAt(a, b, aFromB);
      const low = [0, 0, 0].fill(Number.POSITIVE_INFINITY);
      const high = [0, 0, 0].fill(Number.NEGATIVE_INFINITY);
      forEachNearPair(a, b, aFromB, withinMm, (i, moved) => {
        const [s, t] = [a.corners.slice(i, i + 9), moved].map(
          (c): Triangle => [
            [c[0], c[1], c[2]],
            [c[3], c[4], c[5]],
            [c[6], c[7], c[8]],
          ],
        );
        for (const point of nearPartOfVectors(s, t, withinMm)) {
          applyPoint(frameFromA, point).forEach((x, k) => {
            low[k] = Math.min(low[k], x - withinMm);
            high[k] = Math.max(high[k], x + withinMm);
          });
        }
      });
      const reach = contactReach(a, b, aFromB, errorMm, frameFromA);
      if (low[0] > high[0]) expect(reach, `seed ${seed}`).toBeUndefined();
      else expect(reach, `seed ${seed}`).toEqual({ low, high });
    }
  });
});
