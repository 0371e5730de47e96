import { addScaled, cross, dot, normalize, perpendicular, type Vec3 } from '../../math/vec.ts';

/** What a view must hold: middle of it, and px a mm. */
export interface Framing {
  target: Vec3;
  pxPerMm: number;
}

/** How far what is seen reaches along an axis, mm. */
export type Reach = (axis: Vec3) => { low: number; high: number };

/** How far points reach. */
export const reachOfPoints =
  (points: readonly Vec3[]): Reach =>
  (axis) => {
    const along = points.map((point) => dot(point, axis));
    return {
      low: along.reduce((least, at) => Math.min(least, at), Number.POSITIVE_INFINITY),
      high: along.reduce((most, at) => Math.max(most, at), Number.NEGATIVE_INFINITY),
    };
  };

/** Screen axes of an eye that keeps Z up: unit vectors to the right and up. */
export function screenAxes(eye: Vec3): { right: Vec3; up: Vec3 } {
  const flat = cross([0, 0, 1], eye);
  const right = Math.hypot(...flat) > 1e-9 ? normalize(flat) : perpendicular(eye);
  return { right, up: cross(eye, right) };
}

/** The same with its middle further down the screen by `px`. */
export function lowered({ target, pxPerMm }: Framing, eye: Vec3, px: number): Framing {
  return { target: addScaled(target, screenAxes(eye).up, px / pxPerMm), pxPerMm };
}

/** Frames what reaches so far, seen from `eye`, into `width` by `height` px, `fill` of it used. */
export function frame(reach: Reach, eye: Vec3, width: number, height: number, fill: number): Framing {
  const { right, up } = screenAxes(eye);
  const [x, y, z] = [reach(right), reach(up), reach(eye)];
  const middle = ({ low, high }: { low: number; high: number }) => (low + high) / 2;
  const target = [0, 1, 2].map((k) => middle(x) * right[k] + middle(y) * up[k] + middle(z) * eye[k]);
  const pxPerMm = Math.min(
    (fill * width) / Math.max(x.high - x.low, 1),
    (fill * height) / Math.max(y.high - y.low, 1),
  );
  return { target: target as unknown as Vec3, pxPerMm };
}
