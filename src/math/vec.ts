/** Three Float64 components. Points are in millimetres, directions have no unit. */
export type Vec3 = readonly [number, number, number];

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec3, s: number): Vec3 => [a[0] * s, a[1] * s, a[2] * s];
/** `a + s * b`. */
export const addScaled = (a: Vec3, b: Vec3, s: number): Vec3 => [
  a[0] + s * b[0],
  a[1] + s * b[1],
  a[2] + s * b[2],
];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const lengthSq = (a: Vec3): number => dot(a, a);
export const length = (a: Vec3): number => Math.sqrt(dot(a, a));
export const distance = (a: Vec3, b: Vec3): number => length(sub(a, b));
export const midpoint = (a: Vec3, b: Vec3): Vec3 => scale(add(a, b), 0.5);
export const lerp = (a: Vec3, b: Vec3, t: number): Vec3 => addScaled(a, sub(b, a), t);

/** The unit vector along `a`. Throws a RangeError for a vector of zero length. */
export function normalize(a: Vec3): Vec3 {
  const l = length(a);
  if (!(l > 0)) throw new RangeError(`a vector of length ${l} has no direction`);
  return scale(a, 1 / l);
}

/** A unit vector perpendicular to the unit vector `a`; always the same for the same `a`. */
export function perpendicular(a: Vec3): Vec3 {
  const [x, y, z] = [Math.abs(a[0]), Math.abs(a[1]), Math.abs(a[2])];
  const other: Vec3 = x <= y && x <= z ? [1, 0, 0] : y <= z ? [0, 1, 0] : [0, 0, 1];
  return normalize(cross(a, other));
}

/** Distance from a point to the infinite line through `a` and `b`, which are not the same point. */
export function distanceFromLine(p: Vec3, a: Vec3, b: Vec3): number {
  const along = sub(b, a);
  return length(cross(sub(p, a), along)) / length(along);
}
