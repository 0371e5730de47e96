import { Matrix4, Quaternion, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import {
  applyDirection,
  applyPoint,
  compose,
  frameFromPoints,
  fromAxes,
  identity,
  invert,
  leastRotation,
  type Rigid,
  rotationAbout,
  toMatrix4,
  translation,
} from '../../src/math/rigid.ts';
import {
  add,
  cross,
  distance,
  dot,
  normalize,
  perpendicular,
  scale,
  sub,
  type Vec3,
} from '../../src/math/vec.ts';
import { between, mulberry32 } from '../oracles/random.ts';

const SEED = 77;
const random = mulberry32(SEED);
const point = (): Vec3 => [
  between(random, -900, 900),
  between(random, -900, 900),
  between(random, -900, 900),
];
const unit = (): Vec3 => normalize(point());
const angle = () => between(random, -4, 4);
const someRigid = (): Rigid => compose(translation(point()), rotationAbout(point(), unit(), angle()));
const three = (t: Rigid): Matrix4 => new Matrix4().set(...(toMatrix4(t) as Parameters<Matrix4['set']>));
const CASES = 100;

function same(ours: Rigid, theirs: Matrix4, digits: number, where: string) {
  const rows = theirs.clone().transpose().elements;
  for (const [i, entry] of toMatrix4(ours).entries()) expect(entry, where).toBeCloseTo(rows[i], digits);
}

describe('rigid transforms, against three.js', () => {
  it('agree on random operands', () => {
    for (let i = 0; i < CASES; i++) {
      const where = `seed ${SEED}, case ${i}`;
      const [a, b, p, c, axis, turn] = [someRigid(), someRigid(), point(), point(), unit(), angle()];
      same(compose(a, b), three(a).multiply(three(b)), 8, where);
      same(invert(a), three(a).invert(), 8, where);
      same(translation(p), new Matrix4().makeTranslation(...p), 12, where);
      const about = new Matrix4()
        .makeTranslation(...c)
        .multiply(new Matrix4().makeRotationAxis(new Vector3(...axis), turn))
        .multiply(new Matrix4().makeTranslation(...scale(c, -1)));
      same(rotationAbout(c, axis, turn), about, 9, where);
      const moved = new Vector3(...p).applyMatrix4(three(a)).toArray();
      expect(distance(applyPoint(a, p), moved), where).toBeLessThan(1e-9);
      const direction = new Vector3(...axis).transformDirection(three(a)).toArray();
      expect(distance(applyDirection(a, axis), direction), where).toBeLessThan(1e-12);
    }
  });

  it('gives the identity for a transform after its inverse', () => {
    for (let i = 0; i < CASES; i++) {
      const a = someRigid();
      for (const [k, entry] of compose(a, invert(a)).entries())
        expect(entry, `seed ${SEED}, case ${i}`).toBeCloseTo(identity()[k], 9);
    }
  });

  it('computes the smallest rotation like the quaternion between two directions', () => {
    for (let i = 0; i < CASES; i++) {
      const where = `seed ${SEED}, case ${i}`;
      const [from, to] = [unit(), unit()];
      const quaternion = new Quaternion().setFromUnitVectors(new Vector3(...from), new Vector3(...to));
      same(leastRotation(from, to), new Matrix4().makeRotationFromQuaternion(quaternion), 9, where);
      expect(distance(applyDirection(leastRotation(from, to), from), to), where).toBeLessThan(1e-14);
    }
  });

  it('gives the identity to the same direction and a half turn to the opposite one', () => {
    for (let i = 0; i < CASES; i++) {
      const a = unit();
      expect([...leastRotation(a, a)]).toEqual([...identity()]);
      const half = leastRotation(a, scale(a, -1));
      expect(distance(applyDirection(half, a), scale(a, -1))).toBeLessThan(1e-14);
      expect(distance(applyDirection(half, perpendicular(a)), perpendicular(a))).toBeLessThan(1e-14);
      // A direction a millionth of a radian away.
      const near = normalize(add(a, scale(perpendicular(a), 1e-6)));
      expect(distance(applyDirection(leastRotation(a, near), a), near)).toBeLessThan(1e-15);
    }
  });
});

describe('frames', () => {
  it('maps its own axes to the given ones', () => {
    const x = unit();
    const y = perpendicular(x);
    const z = cross(x, y);
    const frame = fromAxes(x, y, z, [1, 2, 3]);
    expect(applyPoint(frame, [0, 0, 0])).toEqual([1, 2, 3]);
    expect(applyDirection(frame, [1, 0, 0])).toEqual(x);
    expect(applyDirection(frame, [0, 1, 0])).toEqual(y);
    expect(applyDirection(frame, [0, 0, 1])).toEqual(z);
  });

  it('has x along the first two of three points, and the third in its xy plane at positive y', () => {
    for (let i = 0; i < CASES; i++) {
      const [p, q, r] = [point(), point(), point()];
      const back = invert(frameFromPoints(p, q, r));
      const [q1, r1] = [applyPoint(back, q), applyPoint(back, r)];
      expect(distance(applyPoint(back, p), [0, 0, 0])).toBeLessThan(1e-9);
      expect(distance(q1, [distance(p, q), 0, 0])).toBeLessThan(1e-9);
      expect(r1[2]).toBeCloseTo(0, 9);
      expect(r1[1]).toBeGreaterThan(0);
      expect(r1[0]).toBeCloseTo(dot(sub(r, p), normalize(sub(q, p))), 9);
    }
    expect(() => frameFromPoints([0, 0, 0], [1, 1, 1], [2, 2, 2])).toThrow(RangeError);
  });
});
