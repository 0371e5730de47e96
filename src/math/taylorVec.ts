import { add, addScaled, constant, mul, scale, sub, type TaylorModel } from './taylorModel.ts';
import type { Vec3 } from './vec.ts';

/** Vectors of three Taylor models. */
export type TaylorVec = readonly [TaylorModel, TaylorModel, TaylorModel];

export const constantVec = (v: Vec3): TaylorVec => [constant(v[0]), constant(v[1]), constant(v[2])];
export const addVec = (a: TaylorVec, b: TaylorVec): TaylorVec => [
  add(a[0], b[0]),
  add(a[1], b[1]),
  add(a[2], b[2]),
];
export const subVec = (a: TaylorVec, b: TaylorVec): TaylorVec => [
  sub(a[0], b[0]),
  sub(a[1], b[1]),
  sub(a[2], b[2]),
];
export const scaleVec = (a: TaylorVec, s: number): TaylorVec => [
  scale(a[0], s),
  scale(a[1], s),
  scale(a[2], s),
];
export const mulVec = (a: TaylorVec, s: TaylorModel): TaylorVec => [mul(a[0], s), mul(a[1], s), mul(a[2], s)];
export const dotVec = (a: TaylorVec, b: TaylorVec): TaylorModel =>
  add(add(mul(a[0], b[0]), mul(a[1], b[1])), mul(a[2], b[2]));
export const crossVec = (a: TaylorVec, b: TaylorVec): TaylorVec => [
  sub(mul(a[1], b[2]), mul(a[2], b[1])),
  sub(mul(a[2], b[0]), mul(a[0], b[2])),
  sub(mul(a[0], b[1]), mul(a[1], b[0])),
];

/**
 * `x a[0] + y a[1] + z a[2]` for plain numbers: the sum of three directions, or the dot product with a plain vector.
 */
export const combine = (a: TaylorVec, [x, y, z]: Vec3): TaylorModel =>
  addScaled(addScaled(scale(a[0], x), a[1], y), a[2], z);

/** A rigid transform over a cell: the rows of its rotation, and the image `to` of the point `from`. */
export interface TaylorRigid {
  rows: readonly [TaylorVec, TaylorVec, TaylorVec];
  from: Vec3;
  to: TaylorVec;
}

export const columnsToRows = ([a, b, c]: readonly [TaylorVec, TaylorVec, TaylorVec]): TaylorRigid['rows'] => [
  [a[0], b[0], c[0]],
  [a[1], b[1], c[1]],
  [a[2], b[2], c[2]],
];

/** The rotated direction `d`, which is constant in its own frame. */
export const turned = (rows: TaylorRigid['rows'], d: Vec3): TaylorVec => [
  combine(rows[0], d),
  combine(rows[1], d),
  combine(rows[2], d),
];

/** The image of a point. */
export const movedPoint = ({ rows, from, to }: TaylorRigid, [x, y, z]: Vec3): TaylorVec => {
  const out: Vec3 = [x - from[0], y - from[1], z - from[2]];
  return addVec(to, turned(rows, out));
};
