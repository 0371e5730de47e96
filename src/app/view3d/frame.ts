import { screenAxes } from '../../math/screenAxes.ts';
import { addScaled, type Vec3 } from '../../math/vec.ts';

/** Middle and scale of a view. */
interface Framing {
  target: Vec3;
  pxPerMm: number;
}

/** Extent along an axis, mm. */
export type Reach = (axis: Vec3) => { low: number; high: number };

/** The framing with its content moved down on the screen by `px`. */
export function lowered({ target, pxPerMm }: Framing, eye: Vec3, px: number): Framing {
  return { target: addScaled(target, screenAxes(eye).up, px / pxPerMm), pxPerMm };
}

/** Frames an extent, seen from `eye`, in `width` by `height` px; uses the fraction `fill` of them. */
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
