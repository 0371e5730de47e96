import { Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import {
  add,
  addScaled,
  cross,
  distance,
  dot,
  length,
  lengthSq,
  lerp,
  midpoint,
  normalize,
  perpendicular,
  scale,
  sub,
  type Vec3,
} from '../../src/math/vec.ts';
import { between, mulberry32 } from '../oracles/random.ts';

const SEED = 31;
const random = mulberry32(SEED);
const point = (): Vec3 => [between(random, -9, 9), between(random, -9, 9), between(random, -9, 9)];

describe('vectors, against three.js', () => {
  it('agree on random operands', () => {
    for (let i = 0; i < 200; i++) {
      const [a, b] = [point(), point()];
      const t = between(random, -2, 2);
      const [p, q] = [new Vector3(...a), new Vector3(...b)];
      const same = (ours: Vec3, theirs: Vector3) => {
        for (const [k, c] of theirs.toArray().entries())
          expect(ours[k], `seed ${SEED}, case ${i}`).toBeCloseTo(c, 12);
      };
      same(add(a, b), p.clone().add(q));
      same(sub(a, b), p.clone().sub(q));
      same(scale(a, t), p.clone().multiplyScalar(t));
      same(addScaled(a, b, t), p.clone().addScaledVector(q, t));
      same(cross(a, b), p.clone().cross(q));
      same(lerp(a, b, t), p.clone().lerp(q, t));
      same(midpoint(a, b), p.clone().lerp(q, 0.5));
      same(normalize(a), p.clone().normalize());
      expect(dot(a, b)).toBeCloseTo(p.dot(q), 12);
      expect(length(a)).toBeCloseTo(p.length(), 12);
      expect(lengthSq(a)).toBeCloseTo(p.lengthSq(), 12);
      expect(distance(a, b)).toBeCloseTo(p.distanceTo(q), 12);
    }
  });

  it('perpendicular returns a perpendicular unit vector, for the axes too', () => {
    const axes: Vec3[] = [
      [1, 0, 0],
      [0, -1, 0],
      [0, 0, 1],
    ];
    for (const a of [...axes, ...Array.from({ length: 100 }, () => normalize(point()))]) {
      expect(dot(perpendicular(a), a)).toBeCloseTo(0, 14);
      expect(length(perpendicular(a))).toBeCloseTo(1, 14);
    }
  });

  it('normalize rejects a vector of zero length', () => {
    expect(() => normalize([0, 0, 0])).toThrow(RangeError);
    expect(() => normalize([Number.NaN, 0, 0])).toThrow(RangeError);
  });
});
