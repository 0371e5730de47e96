import type { Entry } from '../../../../design/schema.ts';
import { fromAxes } from '../../../../math/rigid.ts';
import {
  add,
  cross,
  distance,
  dot,
  midpoint,
  normalize,
  perpendicular,
  scale,
  sub,
  type Vec3,
} from '../../../../math/vec.ts';
import { across, type Point, rectangle, type Sketch, upward } from './sketch.ts';

/** Gap between a part and a dimension beside it, as a fraction of the part's size. */
const ASIDE = 0.06;

/** A tube along its length. */
export function tubeSketch({ from, to, diameter }: Entry<'tube'>): Sketch {
  const span = distance(from, to);
  const x = normalize(sub(to, from));
  const y = perpendicular(x);
  const half = diameter / 2;
  return {
    title: 'Along the tube, from its first end',
    views: [{ at: [span / 2, 0], vehicleFromView: fromAxes(x, y, cross(x, y), midpoint(from, to)) }],
    outlines: [rectangle(0, span, -half, half)],
    axes: [
      [
        [-ASIDE * span, 0],
        [(1 + ASIDE) * span, 0],
      ],
    ],
    dimensions: [upward('diameter', -half, half, span / 2)],
  };
}

/** A plate in its plane, and its edge beside it. Undefined if its corners enclose no area. */
export function plateSketch({ outline, thickness }: Entry<'plate'>): Sketch | undefined {
  const centre = scale(outline.reduce<Vec3>(add, [0, 0, 0]), 1 / outline.length);
  const normal = outline.reduce<Vec3>(
    (sum, corner, i) => add(sum, cross(sub(corner, centre), sub(outline[(i + 1) % outline.length], centre))),
    [0, 0, 0],
  );
  if (Math.hypot(...normal) < 1e-9) return undefined;
  const z = normalize(normal);
  const x = normalize(sub(sub(outline[1], outline[0]), scale(z, dot(sub(outline[1], outline[0]), z))));
  const y = cross(z, x);
  const flat = outline.map((p): Point => [dot(sub(p, centre), x), dot(sub(p, centre), y)]);
  const [right, top] = [Math.max(...flat.map(([u]) => u)), Math.max(...flat.map(([, v]) => v))];
  const low = Math.min(...flat.map(([, v]) => v));
  const aside = ASIDE * Math.max(right, top - low);
  const edge = right + 4 * aside;
  return {
    title: 'In the plane of the plate, and its edge beside it',
    views: [
      { at: [0, 0], vehicleFromView: fromAxes(x, y, z, centre) },
      { at: [edge, 0], vehicleFromView: fromAxes(z, y, scale(x, -1), add(centre, scale(x, right))) },
    ],
    outlines: [flat, rectangle(edge, edge + thickness, low, top)],
    axes: [],
    dimensions: [{ ...across('thickness', edge, edge + thickness, top + aside), view: 1 }],
  };
}
