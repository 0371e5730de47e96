import { describe, expect, it } from 'vitest';
import { type Body, prepareBody } from '../../src/clearance/body.ts';
import { PairQuery } from '../../src/clearance/query.ts';
import { Trim } from '../../src/clearance/trim.ts';
import { applyPoint, compose, type Rigid, rotationAbout, translation } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import type { Mesh, Zone } from '../../src/solids/solid.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { box, merged, moved, rod, sphere } from '../oracles/shapes.ts';

/**
 * Poses with flush or nearly flush faces. Many pairs of triangles are equally near there, some crossing and some only
 * touching. The results of a query that has measured other poses must equal those of a new query, bit for bit.
 */
type Random = () => number;

const pick = <T>(random: Random, list: readonly T[]): T => list[Math.floor(random() * list.length)];
/** A dimension that Float64 represents exactly, mm. */
const dyadic = (random: Random, least: number, most: number): number =>
  Math.round(8 * between(random, least, most)) / 8;

/** Quarter turns: exact ones, and ones whose cosine is rounded to 6e-17. */
const QUARTERS: readonly Rigid[] = [
  Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0),
  Float64Array.of(0, -1, 0, 0, 1, 0, 0, 0, 0, 0, 1, 0),
  Float64Array.of(0, 0, 1, 0, 0, 1, 0, 0, -1, 0, 0, 0),
  Float64Array.of(1, 0, 0, 0, 0, 0, -1, 0, 0, 1, 0, 0),
  ...[1, 2, 3].map((n) => rotationAbout([0, 0, 0], [0, 0, 1], (n * Math.PI) / 2)),
  rotationAbout([0, 0, 0], [1, 0, 0], Math.PI / 2),
];

function shape(random: Random): Mesh {
  const size = () => dyadic(random, 2, 10);
  const [x, y, z] = [size(), size(), size()];
  switch (Math.floor(random() * 4)) {
    case 0:
      return rod(dyadic(random, 1, 4), -z / 2, z / 2, pick(random, [4, 8, 12]));
    case 1:
      return merged(box(x, y, z), moved(box(x, y, z), translation([x, 0, 0])));
    case 2:
      return merged(box(x, y, z), moved(rod(1, 0, 3, 8), translation([0, 0, z / 2])));
    default:
      return box(x, y, z);
  }
}

function extents({ positions }: Mesh, t: Rigid): { low: Vec3; high: Vec3 } {
  const low: Vec3 = [Infinity, Infinity, Infinity].map(Number) as unknown as Vec3;
  const high: Vec3 = [-Infinity, -Infinity, -Infinity] as unknown as Vec3;
  const [l, h] = [[...low], [...high]];
  for (let i = 0; i < positions.length; i += 3) {
    applyPoint(t, [positions[i], positions[i + 1], positions[i + 2]]).forEach((c, k) => {
      l[k] = Math.min(l[k], c);
      h[k] = Math.max(h[k], c);
    });
  }
  return { low: [l[0], l[1], l[2]], high: [h[0], h[1], h[2]] };
}

/** A pose at which the bounding boxes of the meshes share a plane along one or more axes, within rounding. */
function flushPose(random: Random, a: Mesh, b: Mesh): Rigid {
  const turn =
    random() < 0.2 ? rotationAbout([0, 0, 0], [0, 0, 1], between(random, -3, 3)) : pick(random, QUARTERS);
  const ofA = extents(a, QUARTERS[0]);
  const ofB = extents(b, turn);
  const flushAlong = Math.floor(random() * 3);
  const shift = [0, 1, 2].map((k) => {
    const plane = pick(random, [
      ofA.high[k] - ofB.low[k],
      ofA.low[k] - ofB.high[k],
      ofA.high[k] - ofB.high[k],
      ofA.low[k] - ofB.low[k],
    ]);
    if (k === flushAlong)
      return plane + pick(random, [0, 0, 0, 1, -1, 3]) * 10 ** between(random, -13.5, -10);
    return random() < 0.4 ? plane : dyadic(random, -4, 4);
  });
  return compose(translation([shift[0], shift[1], shift[2]]), turn);
}

const limitOf = (random: Random): number =>
  pick(random, [Number.POSITIVE_INFINITY, 60, 1, 1e-5, between(random, 0, 6)]);

function resultOf(query: PairQuery): object {
  const { kind, distanceMm, errorMm, surfaceErrorMm, reason } = query;
  const [pointA, pointB] = [[...query.pointA], [...query.pointB]];
  return { kind, distanceMm, errorMm, surfaceErrorMm, reason, pointA, pointB };
}

interface Scene {
  a: Mesh;
  b: Mesh;
  bodies: readonly [Body, Body];
  /** Queries of one scene share their trims, as in a study. */
  trims: { trimA?: Trim; trimB?: Trim };
  place: (random: Random) => void;
}

const body = (mesh: Mesh, zones: readonly Zone[] = []) => prepareBody(mesh, { chordErrorMm: 0, zones });

const zone = (random: Random): Zone => {
  const centre: Vec3 = [dyadic(random, -4, 4), dyadic(random, -4, 4), dyadic(random, -4, 4)];
  const radiusMm = between(random, 0.8, 2.5);
  return random() < 0.5
    ? { shape: 'sphere', centre, radiusMm }
    : { shape: 'slab', centre, axis: [0, 0, 1], radiusMm, halfThicknessMm: between(random, 0.3, 1.5) };
};

const SCENES: Record<string, (random: Random) => Scene> = {
  'whole surfaces': (random) => {
    const [a, b] = [shape(random), shape(random)];
    return { a, b, bodies: [body(a), body(b)], trims: {}, place: () => {} };
  },
  'surfaces cut by zones': (random) => {
    const [a, b] = [shape(random), shape(random)];
    const zones = [zone(random)];
    return {
      a,
      b,
      bodies: [body(a, zones), body(b, random() < 0.5 ? zones : [])],
      trims: {},
      place: () => {},
    };
  },
  'surfaces with moving zones': (random) => {
    const [a, b] = [shape(random), random() < 0.3 ? sphere(dyadic(random, 1, 4), 8) : shape(random)];
    const bodies = [body(a), body(b)] as const;
    const trimA = new Trim(bodies[0].surface);
    const trimB = random() < 0.5 ? new Trim(bodies[1].surface) : undefined;
    const place = (more: Random) => {
      trimA.place([zone(more), zone(more)], 0.01);
      trimB?.place([zone(more)], 0.01);
    };
    return { a, b, bodies, trims: { trimA, trimB }, place };
  },
};

const PAIRS = 30;
const POSES = 40;

describe.each(Object.entries(SCENES))(
  'earlier poses of a query do not change its results: %s',
  (_, sceneOf) => {
    const kinds = new Map<string, number>();
    it('run and runUntilDeeper: kind, distance, error and points bit for bit', () => {
      for (let seed = 1; seed <= PAIRS; seed++) {
        const random = mulberry32(seed);
        const { a, b, bodies, trims, place } = sceneOf(random);
        const options = { depthToleranceMm: 0.5, maxEvaluations: 200, ...trims };
        const carried = new PairQuery(...bodies, options);
        const untilDeeper = new PairQuery(...bodies, options);
        for (let step = 0; step < POSES; step++) {
          const aFromB = flushPose(random, a, b);
          const limitMm = limitOf(random);
          const zones = Math.floor(random() * 2 ** 31);
          const beyondMm = pick(random, [-1e-3, 0, 0.5, -2]);
          const where = `seed ${seed}, step ${step}`;
          const queries = random() < 0.5 ? [carried, untilDeeper] : [untilDeeper, carried];
          const run = (query: PairQuery) => {
            query.run(aFromB, limitMm);
            return resultOf(query);
          };
          const runUntilDeeper = (query: PairQuery) => {
            query.runUntilDeeper(aFromB, limitMm, beyondMm, 30);
            return resultOf(query);
          };
          const withNewQuery = <T>(measured: (query: PairQuery) => T): T => {
            place(mulberry32(zones));
            return measured(new PairQuery(...bodies, options));
          };
          const [fresh, freshUntilDeeper] = [withNewQuery(run), withNewQuery(runUntilDeeper)];
          place(mulberry32(zones));
          for (const query of queries) {
            if (query === untilDeeper && random() < 0.5)
              expect(runUntilDeeper(query), where).toEqual(freshUntilDeeper);
            else expect(run(query), where).toEqual(fresh);
          }
          const { kind } = fresh as { kind: string };
          kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
        }
      }
      for (const kind of ['touching', 'overlapping', 'separated', 'beyond'])
        expect(kinds.get(kind) ?? 0, kind).toBeGreaterThan(20);
    });
  },
);
