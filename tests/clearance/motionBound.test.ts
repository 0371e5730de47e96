import { expect, it } from 'vitest';
import { maxDisplacementMm } from '../../src/clearance/motionBound.ts';
import { applyPoint, identity, rotationAbout, translation } from '../../src/math/rigid.ts';
import { distance, type Vec3 } from '../../src/math/vec.ts';
import { randomRigid } from '../oracles/bruteForce.ts';
import { between, mulberry32 } from '../oracles/random.ts';

const unit = Float64Array.of(-1, -1, -1, 1, 1, 1);

it('the bound for a translation is its length', () => {
  expect(maxDisplacementMm(unit, identity(), translation([3, 4, 12]))).toBe(13);
});

it('the bound for a rotation is the chord of the corner furthest from the axis', () => {
  const turn = rotationAbout([0, 0, 0], [0, 0, 1], 0.5);
  expect(maxDisplacementMm(unit, identity(), turn)).toBeCloseTo(2 * Math.SQRT2 * Math.sin(0.25), 14);
});

it('the bound is 0 without motion, and for an empty box', () => {
  const pose = rotationAbout([1, 2, 3], [0, 1, 0], 1);
  expect(maxDisplacementMm(unit, pose, pose)).toBe(0);
  const nothing = Float64Array.of(Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity);
  expect(maxDisplacementMm(nothing, identity(), pose)).toBe(0);
});

it('no point of the box moves further than the bound, and a corner moves as far', () => {
  for (let seed = 1; seed <= 300; seed++) {
    const random = mulberry32(seed);
    const [from, to] = [randomRigid(random, 50), randomRigid(random, 50)];
    const low = [0, 1, 2].map(() => between(random, -80, 40));
    const high = low.map((x) => x + between(random, 0, 90));
    const bound = maxDisplacementMm(Float64Array.of(...low, ...high), from, to);
    const moves = (p: Vec3): number => distance(applyPoint(from, p), applyPoint(to, p));
    const pointInBox = (share: () => number): Vec3 => {
      const [x, y, z] = low.map((least, k) => least + share() * (high[k] - least));
      return [x, y, z];
    };
    let most = 0;
    for (let k = 0; k < 60; k++) most = Math.max(most, moves(pointInBox(random)));
    expect(most, `seed ${seed}`).toBeLessThanOrEqual(bound * (1 + 1e-12));
    let corner = 0;
    for (let k = 0; k < 80; k++) corner = Math.max(corner, moves(pointInBox(() => Math.round(random()))));
    expect(corner, `seed ${seed}`).toBeCloseTo(bound, 9);
  }
});
