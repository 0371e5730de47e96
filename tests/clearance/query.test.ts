import Module from 'manifold-3d';
import { BufferAttribute, BufferGeometry, Matrix4 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Body, prepareBody } from '../../src/clearance/body.ts';
import { measure, PairQuery } from '../../src/clearance/query.ts';
import { Trim } from '../../src/clearance/trim.ts';
import { compose, identity, invert, type Rigid, toMatrix4, translation } from '../../src/math/rigid.ts';
import type { Mesh, Zone } from '../../src/solids/solid.ts';
import { bruteForceDistance, randomRigid } from '../oracles/bruteForce.ts';
import { cases, mulberry32 } from '../oracles/random.ts';
import {
  box,
  capsule,
  merged,
  moved,
  ring,
  rod,
  sphere,
  torus,
  turnedInsideOut,
  withoutTriangle,
} from '../oracles/shapes.ts';

const ready = (mesh: Mesh): Body => prepareBody(mesh, { chordErrorMm: 0 });
/** Rounds coordinates to Float32, for oracles that use Float32. */
const inFloat32 = ({ positions, triangles }: Mesh): Mesh => ({
  positions: Float64Array.from(Float32Array.from(positions)),
  triangles,
});

const SHAPES: Record<string, Mesh> = {
  box: box(8, 5, 3),
  rod: rod(3, -6, 6, 9),
  sphere: sphere(5, 10),
  torus: torus(8, 2, 10, 6),
  capsule: capsule(2, 6, 8),
  tube: ring(
    [
      [6, -4],
      [9, -4],
      [9, 4],
      [6, 4],
    ],
    10,
  ),
  needle: rod(0.01, -9, 9, 4),
};
for (const [name, mesh] of Object.entries(SHAPES)) SHAPES[name] = inFloat32(mesh);
const NAMES = Object.keys(SHAPES);
const PAIRS = NAMES.flatMap((a, i) => NAMES.slice(i).map((b) => [a, b] as const));

describe('distance against every pair of triangles', () => {
  it.each(PAIRS)('%s and %s', (nameA, nameB) => {
    const [a, b] = [SHAPES[nameA], SHAPES[nameB]];
    const query = new PairQuery(ready(a), ready(b));
    let separated = 0;
    for (let seed = 1; seed <= 6; seed++) {
      const aFromB = randomRigid(mulberry32(seed), 18);
      query.run(aFromB, Number.POSITIVE_INFINITY);
      const where = `${nameA}-${nameB}, seed ${seed}: ${query.kind} ${query.distanceMm}`;
      if (query.kind === 'separated') {
        const slow = bruteForceDistance(a, b, aFromB);
        expect(Math.abs(query.distanceMm - slow), `${where}, slow ${slow}`).toBeLessThanOrEqual(1e-9 * slow);
        separated++;
      } else {
        expect(query.kind, where).toBe('overlapping');
        expect(query.distanceMm, where).toBeLessThan(0);
      }
      const { pointA, pointB } = query;
      const apart = Math.hypot(...pointA.map((x, k) => x - pointB[k]));
      expect(apart, where).toBeCloseTo(Math.abs(query.distanceMm), 9);
    }
    expect(separated).toBeGreaterThan(0);
  });
});

describe('the result does not depend on', () => {
  const steps = Array.from({ length: cases(12, 40) }, (_, k) => {
    const t = randomRigid(mulberry32(1000 + (k >> 2)), 14);
    t[3] += 0.05 * (k & 3);
    return t;
  });

  it('the pair of triangles at which the search starts: the same bytes', () => {
    let separated = 0;
    for (const [nameA, nameB] of PAIRS) {
      const [a, b] = [ready(SHAPES[nameA]), ready(SHAPES[nameB])];
      const [warm, cold] = [new PairQuery(a, b), new PairQuery(a, b)];
      steps.forEach((aFromB, k) => {
        cold.reset();
        warm.run(aFromB, 12);
        cold.run(aFromB, 12);
        expect(warm.clearance(), `${nameA}-${nameB}, step ${k}`).toEqual(cold.clearance());
        if (warm.kind === 'separated') separated++;
      });
    }
    expect(separated).toBeGreaterThan(5 * steps.length);
  });

  it('the start even if many pairs are equally near: plate over plate, rod in bore', () => {
    const plate = ready(
      merged(...Array.from({ length: 9 }, (_, k) => moved(box(2, 2, 1), translation([3 * k, 0, 0])))),
    );
    const bore = ready(SHAPES.tube);
    const inner = ready(rod(4, -3, 3, 10));
    for (const [a, b] of [
      [plate, plate],
      [bore, inner],
    ]) {
      const [warm, cold] = [new PairQuery(a, b), new PairQuery(a, b)];
      for (let k = 0; k < 20; k++) {
        const aFromB = translation([(k % 5) * 0.5, 0, a === plate ? 3 : (k % 3) * 0.1]);
        if (a !== plate) aFromB[3] = 0;
        cold.reset();
        warm.run(aFromB, 12);
        cold.run(aFromB, 12);
        expect(warm.clearance()).toEqual(cold.clearance());
      }
    }
  });

  it('the order of the two bodies', () => {
    for (const [nameA, nameB] of PAIRS) {
      const [a, b] = [ready(SHAPES[nameA]), ready(SHAPES[nameB])];
      for (let k = 0; k < cases(4, 12); k++) {
        const there = measure(a, b, steps[k]);
        const back = measure(b, a, invert(steps[k]));
        expect(back.kind, `${nameA}-${nameB}, step ${k}`).toBe(there.kind);
        if (there.kind !== 'separated' || back.kind !== 'separated') continue;
        expect(back.distanceMm).toBeCloseTo(there.distanceMm, 9);
      }
    }
  });

  it('the position of the pair in space', () => {
    for (const [nameA, nameB] of PAIRS) {
      for (let seed = 1; seed <= cases(2, 5); seed++) {
        const random = mulberry32(seed);
        const aFromB = randomRigid(random, 12);
        const away = randomRigid(random, 900);
        const here = measure(ready(SHAPES[nameA]), ready(SHAPES[nameB]), aFromB);
        const there = measure(ready(moved(SHAPES[nameA], away)), ready(SHAPES[nameB]), compose(away, aFromB));
        expect(there.kind, `${nameA}-${nameB}, seed ${seed}`).toBe(here.kind);
        if (there.kind !== 'separated' || here.kind !== 'separated') continue;
        expect(there.distanceMm).toBeCloseTo(here.distanceMm, 9);
      }
    }
  });
});

describe('against general-purpose libraries', () => {
  type Manifold = InstanceType<Awaited<ReturnType<typeof Module>>['Manifold']>;
  const solids: Record<string, Manifold> = {};
  beforeAll(async () => {
    const wasm = await Module();
    wasm.setup();
    for (const [name, { positions, triangles }] of Object.entries(SHAPES)) {
      solids[name] = new wasm.Manifold(
        new wasm.Mesh({
          numProp: 3,
          vertProperties: Float32Array.from(positions),
          triVerts: triangles.slice(),
        }),
      );
    }
  });
  const matrix16 = (t: Rigid) =>
    [t[0], t[4], t[8], 0, t[1], t[5], t[9], 0, t[2], t[6], t[10], 0, t[3], t[7], t[11], 1] as const;

  it('manifold-3d: overlapping if and only if the solids share volume; otherwise the same gap', () => {
    let overlaps = 0;
    let gaps = 0;
    for (const [nameA, nameB] of PAIRS) {
      const query = new PairQuery(ready(SHAPES[nameA]), ready(SHAPES[nameB]));
      for (let seed = 100; seed < 100 + cases(8, 18); seed++) {
        const aFromB = randomRigid(mulberry32(seed), 9);
        query.run(aFromB, Number.POSITIVE_INFINITY);
        const other = solids[nameB].transform([...matrix16(aFromB)]);
        const shared = solids[nameA].intersect(other);
        const where = `${nameA}-${nameB}, seed ${seed}: ${query.kind} ${query.distanceMm}, shared ${shared.volume()} mm^3`;
        expect(query.kind === 'overlapping', where).toBe(shared.volume() > 0);
        if (query.kind === 'overlapping') overlaps++;
        else {
          gaps++;
          const gap = solids[nameA].minGap(other, 100);
          expect(Math.abs(query.distanceMm - gap), `${where}, gap ${gap}`).toBeLessThanOrEqual(1e-6);
        }
        shared.delete();
        other.delete();
      }
    }
    expect(overlaps).toBeGreaterThan(40);
    expect(gaps).toBeGreaterThan(40);
  });

  it('three-mesh-bvh: closestPointToGeometry, within Float32', () => {
    const geometryOf = ({ positions, triangles }: Mesh) => {
      const geometry = new BufferGeometry();
      geometry.setAttribute('position', new BufferAttribute(new Float32Array(positions), 3));
      geometry.setIndex(new BufferAttribute(triangles.slice(), 1));
      return geometry;
    };
    let compared = 0;
    for (const [nameA, nameB] of PAIRS) {
      const bvh = new MeshBVH(geometryOf(SHAPES[nameA]));
      const geometry = geometryOf(SHAPES[nameB]);
      for (let seed = 200; seed < 200 + cases(3, 5); seed++) {
        const aFromB = randomRigid(mulberry32(seed), 14);
        const here = measure(ready(SHAPES[nameA]), ready(SHAPES[nameB]), aFromB);
        if (here.kind !== 'separated') continue;
        const matrix = new Matrix4().fromArray(toMatrix4(aFromB)).transpose();
        const there = bvh.closestPointToGeometry(geometry, matrix);
        expect(there?.distance, `${nameA}-${nameB}, seed ${seed}`).toBeCloseTo(here.distanceMm, 4);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(25);
  });
});

describe('one inside the other', () => {
  const [large, small] = [ready(sphere(100, 48)), ready(box(2, 2, 2))];
  it('overlaps at any distance from the surface and any limit', () => {
    for (const limitMm of [Number.POSITIVE_INFINITY, 60, 1, 0]) {
      expect(measure(large, small, translation([10, 0, 0]), { limitMm }).kind).toBe('overlapping');
      expect(measure(small, large, translation([10, 0, 0]), { limitMm }).kind).toBe('overlapping');
    }
  });
  it('does not overlap in a void', () => {
    const shell = ready(merged(sphere(100, 48), turnedInsideOut(sphere(90, 48))));
    expect(measure(shell, small, identity(), { limitMm: 60 }).kind).toBe('beyond');
    const near = measure(shell, small, translation([80, 0, 0]), { limitMm: 60 });
    expect(near.kind).toBe('separated');
    expect(measure(shell, small, translation([95, 0, 0])).kind).toBe('overlapping');
  });
  it('overlaps if only one of several pieces is inside', () => {
    const two = ready(merged(moved(box(2, 2, 2), translation([300, 0, 0])), box(2, 2, 2)));
    expect(measure(large, two, identity(), { limitMm: 5 }).kind).toBe('overlapping');
    expect(measure(two, large, identity(), { limitMm: 5 }).kind).toBe('overlapping');
  });
  it('does not overlap in the bore of a ring', () => {
    const bored = ready(SHAPES.tube);
    const found = measure(bored, ready(rod(4, -2, 2, 64)), identity());
    expect(found.kind).toBe('separated');
  });
});

describe('limit', () => {
  const cube = ready(box(10, 10, 10));
  const at = (x: number, limitMm: number) => measure(cube, cube, translation([x, 0, 0]), { limitMm });
  it('gives the distance up to the limit, and none above it', () => {
    expect(at(15, 5)).toMatchObject({ kind: 'separated', distanceMm: 5 });
    expect(at(15, 4.999)).toEqual({ kind: 'beyond', limitMm: 4.999 });
  });
  it('clears the distance of an earlier pose', () => {
    const query = new PairQuery(cube, cube);
    query.run(translation([12, 0, 0]), 5);
    query.run(translation([50, 0, 0]), 5);
    expect(query.kind).toBe('beyond');
    expect(query.distanceMm).toBe(Number.POSITIVE_INFINITY);
    expect(query.errorMm).toBeNaN();
    expect([...query.pointA, ...query.pointB].every(Number.isNaN)).toBe(true);
  });
  it('rejects a pose or limit that is not a number', () => {
    const query = new PairQuery(cube, cube);
    expect(() => query.run(translation([Number.NaN, 0, 0]), 5)).toThrow(RangeError);
    expect(() => query.run(identity(), Number.NaN)).toThrow(RangeError);
    expect(() => query.run(identity(), -1)).toThrow(RangeError);
  });
});

describe('touching and coinciding', () => {
  const cube = ready(box(10, 10, 10));
  it.each([
    ['face on face', [10, 0, 0]],
    ['face on face, shifted', [10, 3, 4]],
    ['edge on edge', [10, 10, 0]],
    ['edge on edge, shifted', [10, 10, 2.5]],
    ['corner on corner', [10, 10, 10]],
  ] as const)('touches %s', (_, t) => {
    const found = measure(cube, cube, translation(t));
    expect(found).toMatchObject({ kind: 'touching', distanceMm: 0 });
    if (found.kind !== 'touching') return;
    expect(found.pointA).toEqual(found.pointB);
    expect(found.errorMm).toBeLessThan(0.05);
  });
  it.each([
    ['flush on five sides', box(10, 10, 4), [0, 0, 3]],
    ['flush at the bottom', box(4, 4, 4), [0, 0, -3]],
    ['crossing at edges only', box(10, 10, 10), [5, 5, 5]],
    ['pushed in along one axis', box(10, 10, 10), [0.01, 0, 0]],
    ['the same part in the same place', box(10, 10, 10), [0, 0, 0]],
  ] as const)('overlaps %s', (_, mesh, t) => {
    const found = measure(cube, ready(mesh), translation(t));
    expect(found.kind).toBe('overlapping');
    if (found.kind === 'overlapping') expect(found.distanceMm).toBeLessThan(-0.005);
  });
  it('is separated or overlapping for gaps down to a nanometre', () => {
    for (const gap of [1e-3, 1e-6, 1e-9]) {
      const off = measure(cube, cube, translation([10 + gap, 1, 2]));
      expect(off.kind).toBe('separated');
      if (off.kind === 'separated') expect(Math.abs(off.distanceMm - gap)).toBeLessThan(1e-13);
      expect(measure(cube, cube, translation([10 - gap, 1, 2])).kind, `${gap}`).toBe('overlapping');
    }
  });
});

describe('open meshes', () => {
  const open = ready(withoutTriangle(sphere(10, 16), 20));
  const closed = ready(box(2, 2, 2));
  it('are recognised as open', () => {
    expect(open.closed).toBe(false);
    expect(closed.closed).toBe(true);
  });
  it('give unknown if the other body can be inside', () => {
    const found = measure(open, closed, identity());
    expect(found.kind).toBe('unknown');
    if (found.kind === 'unknown') expect(found.reason).toMatch(/first part is open/);
    expect(measure(closed, open, identity())).toMatchObject({ kind: 'unknown' });
  });
  it('are measured if the other body cannot be inside', () => {
    expect(measure(open, closed, translation([20, 0, 0])).kind).toBe('separated');
    expect(measure(open, closed, translation([90, 0, 0]), { limitMm: 60 }).kind).toBe('beyond');
  });
  it('overlap a body that they cross', () => {
    expect(measure(open, closed, translation([10, 0, 0])).kind).toBe('overlapping');
    const other = ready(withoutTriangle(sphere(10, 16), 3));
    const both = measure(open, other, translation([10, 1, 2]));
    expect(both.kind).toBe('overlapping');
    if (both.kind === 'overlapping') expect(both.errorMm).toBe(Number.POSITIVE_INFINITY);
  });
  it('overlap a closed body that contains them', () => {
    expect(measure(ready(box(50, 50, 50)), open, identity(), { limitMm: 1 }).kind).toBe('overlapping');
  });
});

describe('a part covered by a zone of intended contact', () => {
  const zone: Zone = { shape: 'sphere', centre: [0, 0, 0], radiusMm: 5 };
  const covered = prepareBody(box(2, 2, 2), { chordErrorMm: 0, zones: [zone] });
  const other = ready(box(50, 50, 50));
  const unknown = {
    kind: 'unknown',
    reason: 'the zone of intended contact covers one whole part, so its clearance cannot be measured',
  };
  const untilDeeper = (query: PairQuery) => {
    query.runUntilDeeper(identity(), 60, 0, 10);
    return query.clearance();
  };

  it('gives unknown against another, near and far, in either order', () => {
    expect(covered.surface.corners.length).toBe(0);
    for (const pose of [identity(), translation([60, 0, 0]), translation([900, 0, 0])]) {
      expect(measure(covered, other, pose, { limitMm: 60 })).toEqual(unknown);
      expect(measure(other, covered, pose, { limitMm: 60 })).toEqual(unknown);
    }
    expect(untilDeeper(new PairQuery(covered, other))).toEqual(unknown);
  });

  it('gives unknown while a moving zone covers it, and is measured again afterwards', () => {
    const small = ready(box(2, 2, 2));
    const trimA = new Trim(small.surface);
    const query = new PairQuery(small, other, { trimA });
    trimA.place([zone], 0.01);
    query.run(translation([60, 0, 0]), 60);
    expect(query.clearance()).toEqual(unknown);
    expect(untilDeeper(query)).toEqual(unknown);
    trimA.place([{ ...zone, centre: [9, 0, 0] }], 0.01);
    query.run(translation([60, 0, 0]), 60);
    expect(query.kind).toBe('separated');
  });

  it('is measured if a corner of it is outside the zone', () => {
    const left = prepareBody(box(2, 2, 2), { chordErrorMm: 0, zones: [{ ...zone, radiusMm: 1.7 }] });
    expect(measure(left, other, translation([60, 0, 0])).kind).toBe('separated');
  });
});

it('the error includes the chord errors of both bodies', () => {
  const one = prepareBody(box(2, 2, 2), { chordErrorMm: 0.05 });
  const other = prepareBody(box(2, 2, 2), { chordErrorMm: 0.02 });
  const found = measure(one, other, translation([5, 0, 0]));
  expect(found.kind).toBe('separated');
  if (found.kind === 'separated') expect(found.errorMm).toBeCloseTo(0.07, 9);
});
