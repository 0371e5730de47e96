import { cos, sin } from './sine.ts';
import { cross, dot, normalize, perpendicular, sub, type Vec3 } from './vec.ts';

/**
 * A rigid transform `aFromB`: the upper three rows of a 4x4 matrix as twelve Float64 numbers, row-major: `[r00 r01
 * r02 tx  r10 r11 r12 ty  r20 r21 r22 tz]`. It maps the coordinates of a point in frame b to those in frame a.
 * Translations in millimetres.
 */
export type Rigid = Float64Array;

/**
 * Assigns each number, because `Float64Array.of` takes several times as long and every pose creates many transforms.
 */
function rigid(
  xx: number,
  xy: number,
  xz: number,
  x: number,
  yx: number,
  yy: number,
  yz: number,
  y: number,
  zx: number,
  zy: number,
  zz: number,
  z: number,
): Rigid {
  const t = new Float64Array(12);
  t[0] = xx;
  t[1] = xy;
  t[2] = xz;
  t[3] = x;
  t[4] = yx;
  t[5] = yy;
  t[6] = yz;
  t[7] = y;
  t[8] = zx;
  t[9] = zy;
  t[10] = zz;
  t[11] = z;
  return t;
}

export const identity = (): Rigid => rigid(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0);

export const translation = (t: Vec3): Rigid => rigid(1, 0, 0, t[0], 0, 1, 0, t[1], 0, 0, 1, t[2]);

/**
 * The transform `aFromB` for a frame b with origin `origin` and axes `x`, `y`, `z`, all given in a. The axes must be
 * right-handed, perpendicular unit vectors.
 */
export const fromAxes = (x: Vec3, y: Vec3, z: Vec3, origin: Vec3): Rigid =>
  rigid(x[0], y[0], z[0], origin[0], x[1], y[1], z[1], origin[1], x[2], y[2], z[2], origin[2]);

export function applyPoint(t: Rigid, p: Vec3): Vec3 {
  return [
    t[0] * p[0] + t[1] * p[1] + t[2] * p[2] + t[3],
    t[4] * p[0] + t[5] * p[1] + t[6] * p[2] + t[7],
    t[8] * p[0] + t[9] * p[1] + t[10] * p[2] + t[11],
  ];
}

export function applyDirection(t: Rigid, d: Vec3): Vec3 {
  return [
    t[0] * d[0] + t[1] * d[1] + t[2] * d[2],
    t[4] * d[0] + t[5] * d[1] + t[6] * d[2],
    t[8] * d[0] + t[9] * d[1] + t[10] * d[2],
  ];
}

/** `aFromC = compose(aFromB, bFromC)`. */
export function compose(a: Rigid, b: Rigid): Rigid {
  const out = new Float64Array(12);
  for (let r = 0; r < 12; r += 4) {
    for (let c = 0; c < 4; c++) {
      out[r + c] = a[r] * b[c] + a[r + 1] * b[4 + c] + a[r + 2] * b[8 + c] + (c === 3 ? a[r + 3] : 0);
    }
  }
  return out;
}

/** `bFromA` from `aFromB`: transposes the rotation, so the rotation is exact. */
export function invert(t: Rigid): Rigid {
  const x = -(t[0] * t[3] + t[4] * t[7] + t[8] * t[11]);
  const y = -(t[1] * t[3] + t[5] * t[7] + t[9] * t[11]);
  const z = -(t[2] * t[3] + t[6] * t[7] + t[10] * t[11]);
  return rigid(t[0], t[4], t[8], x, t[1], t[5], t[9], y, t[2], t[6], t[10], z);
}

/** Rotation by `angleRad` (right-hand rule) about the line through `point` along the unit vector `axis`. */
export function rotationAbout(point: Vec3, axis: Vec3, angleRad: number): Rigid {
  const c = cos(angleRad);
  const s = sin(angleRad);
  const k = 1 - c;
  const [x, y, z] = axis;
  const t = rigid(
    c + x * x * k,
    x * y * k - z * s,
    x * z * k + y * s,
    0,
    y * x * k + z * s,
    c + y * y * k,
    y * z * k - x * s,
    0,
    z * x * k - y * s,
    z * y * k + x * s,
    c + z * z * k,
    0,
  );
  const moved = applyDirection(t, point);
  t[3] = point[0] - moved[0];
  t[7] = point[1] - moved[1];
  t[11] = point[2] - moved[2];
  return t;
}

/**
 * The smallest rotation about the origin that turns unit vector `from` into unit vector `to`. For opposite vectors:
 * the half turn about `perpendicular(from)`.
 */
export function leastRotation(from: Vec3, to: Vec3): Rigid {
  const axis = cross(from, to);
  const s = Math.hypot(axis[0], axis[1], axis[2]);
  const c = dot(from, to);
  if (s === 0) return c > 0 ? identity() : rotationAbout([0, 0, 0], perpendicular(from), Math.PI);
  return rotationAbout([0, 0, 0], [axis[0] / s, axis[1] / s, axis[2] / s], Math.atan2(s, c));
}

/**
 * The right-handed frame of three points: origin at `p`, x along `p -> q`, z perpendicular to their plane. Returns
 * `worldFromFrame`. Throws a RangeError if the points are collinear.
 */
export function frameFromPoints(p: Vec3, q: Vec3, r: Vec3): Rigid {
  const x = normalize(sub(q, p));
  const z = normalize(cross(x, sub(r, p)));
  return fromAxes(x, cross(z, x), z, p);
}

/** The sixteen numbers of the 4x4 matrix, row-major. */
export const toMatrix4 = (t: Rigid): number[] => [...t, 0, 0, 0, 1];
