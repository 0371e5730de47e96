/** Large numbers of cases that support the exactness of the clearance engine. */
import { describe, expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { PairQuery } from '../../src/clearance/query.ts';
import { ROUNDING, triangleDistanceSq } from '../../src/clearance/triangleDistance.ts';
import { bruteForceDistance, randomRigid } from '../oracles/bruteForce.ts';
import { cases, mulberry32 } from '../oracles/random.ts';
import { box, capsule, ring, rod, sphere, torus } from '../oracles/shapes.ts';
import { slowTriangleDistance } from '../oracles/triangleOracle.ts';
import { PAIRS } from '../oracles/trianglePairs.ts';

const KINDS = Object.entries(PAIRS);

const TRIANGLE_PAIRS = cases(10_000, 100_000);
const MESH_PAIRS = cases(200, 2000);

describe(`${TRIANGLE_PAIRS} pairs of triangles against the convex program, to 1e-9`, () => {
  const each = Math.ceil(TRIANGLE_PAIRS / KINDS.length);
  it.each(KINDS)('%s', (name, make) => {
    // These seeds differ from those in the tests of single triangles.
    for (let seed = 10_000; seed < 10_000 + each; seed++) {
      const [s, t] = make(mulberry32(seed));
      const slack = ROUNDING * Math.max(...s.map(Math.abs), ...t.map(Math.abs));
      const fast = Math.sqrt(triangleDistanceSq(Float64Array.from(s), 0, Float64Array.from(t), 0));
      const slow = slowTriangleDistance(s, t);
      if (!(Math.abs(fast - slow) <= 1e-9 * slow + slack))
        expect.fail(`${name}, seed ${seed}: fast ${fast}, slow ${slow}`);
    }
  });
});

describe(`${MESH_PAIRS} pairs of meshes at poses against every pair of triangles, to 1e-9`, () => {
  const shapes = {
    box: box(8, 5, 3),
    rod: rod(3, -6, 6, 7),
    sphere: sphere(5, 8),
    torus: torus(8, 2, 9, 5),
    capsule: capsule(2, 6, 8),
    tube: ring(
      [
        [6, -4],
        [9, -4],
        [9, 4],
        [6, 4],
      ],
      8,
    ),
    needle: rod(0.01, -9, 9, 4),
  };
  const meshes = Object.entries(shapes);
  const pairs = meshes.flatMap((a, i) => meshes.slice(i).map((b) => [a, b] as const));
  const each = Math.ceil(MESH_PAIRS / pairs.length);
  it.each(pairs.map(([a, b]) => [a[0], b[0], a[1], b[1]] as const))('%s and %s', (nameA, nameB, a, b) => {
    const query = new PairQuery(prepareBody(a, { chordErrorMm: 0 }), prepareBody(b, { chordErrorMm: 0 }));
    let compared = 0;
    for (let seed = 1; compared < each; seed++) {
      const aFromB = randomRigid(mulberry32(seed), 22);
      query.run(aFromB, Number.POSITIVE_INFINITY);
      const where = `${nameA}-${nameB}, seed ${seed}: ${query.kind} ${query.distanceMm}`;
      // Other tests compare overlaps with solids: brute force on surfaces gives no depth.
      if (query.kind === 'overlapping') continue;
      const slow = bruteForceDistance(a, b, aFromB);
      if (!(Math.abs(query.distanceMm - slow) <= 1e-9 * slow)) expect.fail(`${where}, slow ${slow}`);
      compared++;
    }
  });
});
