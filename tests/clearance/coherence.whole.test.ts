import { describe, expect, it } from 'vitest';
import { type Body, prepareBody } from '../../src/clearance/body.ts';
import { PairQuery } from '../../src/clearance/query.ts';
import { compose, type Rigid, rotationAbout, translation } from '../../src/math/rigid.ts';
import { normalize } from '../../src/math/vec.ts';
import type { Zone } from '../../src/solids/solid.ts';
import { randomRigid } from '../oracles/bruteForce.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { box, capsule, merged, moved, ring, rod, sphere, torus, withoutTriangle } from '../oracles/shapes.ts';

/**
 * A query moved along a path stores pairs skipped at earlier poses. Its results must equal those of a new query to
 * the last bit.
 */
const ZONES: Zone[] = [{ shape: 'sphere', centre: [0, 0, 4], radiusMm: 2.5 }];
const tube = ring(
  [
    [6, -4],
    [9, -4],
    [9, 4],
    [6, 4],
  ],
  40,
);
const assembly = merged(
  box(9, 2, 2),
  moved(sphere(2, 16), translation([6, 1, 0])),
  moved(rod(1, -6, 6, 12), translation([-5, 0, 0])),
);
const ready = (mesh: ReturnType<typeof box>, zones: readonly Zone[] = []): Body =>
  prepareBody(mesh, { zones, chordErrorMm: 0.01 });

const PAIRS: Record<string, () => [Body, Body]> = {
  'torus and assembly': () => [ready(torus(8, 2, 32, 16)), ready(assembly)],
  'tube and capsule': () => [ready(tube), ready(capsule(2, 6, 16))],
  'sphere and assembly, contact intended': () => [ready(sphere(5, 24), ZONES), ready(assembly, ZONES)],
  'box that can hold a sphere': () => [ready(box(14, 14, 14)), ready(sphere(3, 12))],
  'open tube and rod': () => [ready(withoutTriangle(tube, 7)), ready(rod(1, -9, 9, 16))],
};

/** A path of small steps of many sizes with an occasional jump, back and forth past the origin. */
function* path(seed: number, poses: number): Generator<Rigid> {
  const random = mulberry32(seed);
  let pose = randomRigid(random, 16);
  for (let k = 0; k < poses; k++) {
    yield pose;
    if (random() < 0.04) {
      pose = randomRigid(random, 16);
      continue;
    }
    const step = 10 ** between(random, -4, 0.3);
    const along = normalize([between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)]);
    const home = 0.05 * step;
    pose = compose(
      translation([
        step * along[0] - home * pose[3],
        step * along[1] - home * pose[7],
        step * along[2] - home * pose[11],
      ]),
      compose(rotationAbout([0, 0, 0], along, 0.1 * step * between(random, -1, 1)), pose),
    );
  }
}

describe('a query moved along a path gives the results of a new one', () => {
  for (const [name, make] of Object.entries(PAIRS)) {
    it.each([Number.POSITIVE_INFINITY, 6, 1])(`${name}, up to %f mm`, (limitMm) => {
      const [a, b] = make();
      const kinds = new Map<string, number>();
      for (let seed = 1; seed <= 2; seed++) {
        const carried = new PairQuery(a, b);
        let step = 0;
        for (const aFromB of path(seed, 150)) {
          const fresh = new PairQuery(a, b);
          carried.run(aFromB, limitMm);
          fresh.run(aFromB, limitMm);
          expect(carried.clearance(), `${name}, seed ${seed}, step ${step}`).toEqual(fresh.clearance());
          kinds.set(fresh.kind, (kinds.get(fresh.kind) ?? 0) + 1);
          step++;
        }
      }
      expect(kinds.get('overlapping') ?? 0).toBeGreaterThan(20);
      const apart = limitMm === Number.POSITIVE_INFINITY ? 'separated' : 'beyond';
      expect((kinds.get(apart) ?? 0) + (kinds.get('separated') ?? 0)).toBeGreaterThan(50);
    });
  }

  it('even after a path of 100,000 mm in large steps', () => {
    const [a, b] = [ready(torus(8, 2, 32, 16)), ready(assembly)];
    const carried = new PairQuery(a, b);
    let separated = 0;
    for (let k = 0; k < 400; k++) {
      const aFromB = translation([k % 2 === 0 ? 0 : 250, 0, 5 + 0.01 * k]);
      const fresh = new PairQuery(a, b);
      carried.run(aFromB, 20);
      fresh.run(aFromB, 20);
      expect(carried.clearance(), `step ${k}`).toEqual(fresh.clearance());
      if (fresh.kind === 'separated') separated++;
    }
    expect(separated).toBeGreaterThan(100);
  });
});
