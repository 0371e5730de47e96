import { describe, expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
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
import type { Mesh } from '../../src/solids/solid.ts';
import { bruteForcePointDistance, randomRigid } from '../oracles/bruteForce.ts';
import { mulberry32 } from '../oracles/random.ts';
import { box, merged, moved, ring, rod } from '../oracles/shapes.ts';

const ROUNDING_MM = 1e-10;
const SHAPES: [string, Mesh][] = [
  ['box', box(10, 8, 6)],
  ['rod', rod(4, -9, 9, 24)],
  [
    'tube',
    ring(
      [
        [6, -4],
        [9, -4],
        [9, 4],
        [6, 4],
      ],
      16,
    ),
  ],
];

/** Expects an overlap with `pointA` on the surface of A and `pointB` on the surface of B. Returns the depth, mm. */
function expectOnBothSurfaces(a: Mesh, b: Mesh, aFromB: Rigid): number {
  const ready = (mesh: Mesh) => prepareBody(mesh, { chordErrorMm: 0 });
  const found = measure(ready(a), ready(b), aFromB);
  if (found.kind !== 'overlapping') throw new Error(found.kind);
  expect(bruteForcePointDistance(a, found.pointA)).toBeLessThan(ROUNDING_MM);
  expect(bruteForcePointDistance(b, applyPoint(invert(aFromB), found.pointB))).toBeLessThan(ROUNDING_MM);
  return -found.distanceMm;
}

describe('witness points of bodies that share a piece', () => {
  it.each(SHAPES)('lie on both surfaces: the same %s in the same place', (_, mesh) => {
    expect(expectOnBothSurfaces(mesh, mesh, identity())).toBeGreaterThan(0.5);
  });

  it.each(SHAPES)('lie on both surfaces: a %s that is elsewhere in its own frame', (_, mesh) => {
    for (let seed = 1; seed <= 8; seed++) {
      const aFromB = randomRigid(mulberry32(seed), 200);
      expect(expectOnBothSurfaces(mesh, moved(mesh, invert(aFromB)), aFromB), `seed ${seed}`).toBeGreaterThan(
        0.5,
      );
    }
  });

  it('lie on both surfaces: a box turned onto itself', () => {
    for (const turns of [1, 2, 3]) {
      const aFromB = rotationAbout([0, 0, 0], [0, 0, 1], (turns * Math.PI) / 2);
      expect(expectOnBothSurfaces(box(8, 8, 6), box(8, 8, 6), aFromB)).toBeGreaterThan(0.5);
    }
  });

  it('lie on both surfaces: one common piece of several', () => {
    const [small, large] = [box(3, 4, 5), box(20, 20, 20)];
    const a = merged(moved(large, translation([40, 0, 0])), small);
    const b = merged(small, moved(large, translation([-40, 0, 0])));
    expect(expectOnBothSurfaces(a, b, identity())).toBeGreaterThan(0.5);
    const turn = compose(translation([3, 1, 2]), rotationAbout([0, 0, 0], [0, 1, 0], 0.7));
    expect(expectOnBothSurfaces(a, moved(b, invert(turn)), turn)).toBeGreaterThan(0.5);
  });
});
