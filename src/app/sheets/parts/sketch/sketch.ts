import type { Carrier } from '../../../../design/schema.ts';
import { applyPoint, type Rigid } from '../../../../math/rigid.ts';
import type { Vec3 } from '../../../../math/vec.ts';

export type Point = readonly [x: number, y: number];

/** A dimension of a part between two points of its sketch. */
export interface SketchDimension {
  /** Field under the part: `mount.boltRadius`. */
  field: string;
  from: Point;
  to: Point;
  /** Intermediate points of a dimension that is not straight, such as an angle. */
  via?: readonly Point[];
  /** Index of its view in the sketch; default: the first. */
  view?: number;
  /** Distance of the true dimension from the plane of its view, toward the eye, mm. */
  out?: number;
}

/** A view of the part: its place in the sketch and its frame in the vehicle. */
export interface SketchView {
  /** The frame's origin in the sketch. */
  at: Point;
  /** At ride height; x and y as in the sketch, z toward the eye. */
  vehicleFromView: Rigid;
  /** Carrier of its dimensions, and of what it cuts, if the part has bodies on several carriers. */
  carrier?: Carrier;
  /** Distances from its plane, toward the eye, at which it cuts the part's solids, mm; default: none. */
  cuts?: readonly number[];
}

/** A drawing at true scale, mm; x to the right, y up. */
export interface Drawing {
  /** Drawn in addition to the cuts of the views. */
  outlines: readonly (readonly Point[])[];
  /** Rotation axes, and lines from which angles are measured. */
  axes: readonly (readonly [Point, Point])[];
  dimensions: readonly SketchDimension[];
}

/** A drawing of a part. */
export interface Sketch extends Drawing {
  /** What the drawing shows. */
  title: string;
  /** Its views in the vehicle; empty if they are not known. */
  views: readonly SketchView[];
}

/** Gap between a part and a dimension beside it, mm. */
export const ASIDE = 8;

/** Outlines of half a section and of its mirror image at x = 0. */
export const bothHalves = (outlines: readonly (readonly Point[])[]): Point[][] =>
  outlines.flatMap((outline) => [[...outline], outline.map(([x, y]): Point => [-x, y])]);

export const rectangle = (x0: number, x1: number, y0: number, y1: number): Point[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** A dimension across: from `x0` to `x1` at height `y`. */
export const across = (field: string, x0: number, x1: number, y: number): SketchDimension => ({
  field,
  from: [x0, y],
  to: [x1, y],
});

/** A diameter about the axis at x = 0. */
export const diameter = (field: string, mm: number, y: number): SketchDimension =>
  across(field, -mm / 2, mm / 2, y);

/** A dimension upward: from `y0` to `y1` at `x`. */
export const upward = (field: string, y0: number, y1: number, x: number): SketchDimension => ({
  field,
  from: [x, y0],
  to: [x, y1],
});

/** An angle about a point at a radius, between two angles from straight up, toward +x; rad. */
export function turn(
  field: string,
  about: Point,
  radius: number,
  [fromRad, toRad]: readonly [number, number],
): SketchDimension {
  const points = arc(about, radius, fromRad, toRad);
  return { field, from: points[0], to: points[points.length - 1], via: points.slice(1, -1) };
}

/** Points of a dimension from end to end. */
export const wayOf = ({ from, via = [], to }: SketchDimension): Point[] => [from, ...via, to];

/** Least and greatest x and y of all that is drawn. */
export function boundsOf({ outlines, axes, dimensions }: Drawing): [number, number, number, number] {
  const points = [...outlines.flat(), ...axes.flat(), ...dimensions.flatMap(wayOf)];
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
}

const CIRCLE_STEPS = 32;

/** A circle, or its arc between two angles from straight up, toward +x; rad. */
export const arc = ([x, y]: Point, radius: number, from = 0, to = 2 * Math.PI): Point[] =>
  Array.from({ length: CIRCLE_STEPS + 1 }, (_, i): Point => {
    const angle = from + ((to - from) * i) / CIRCLE_STEPS;
    return [x + radius * Math.sin(angle), y + radius * Math.cos(angle)];
  });

/** A bar of a width between two points. */
export function bar([x0, y0]: Point, [x1, y1]: Point, width: number): Point[] {
  const long = Math.hypot(x1 - x0, y1 - y0) || 1;
  const [nx, ny] = [((y0 - y1) / long) * (width / 2), ((x1 - x0) / long) * (width / 2)];
  return [
    [x0 + nx, y0 + ny],
    [x1 + nx, y1 + ny],
    [x1 - nx, y1 - ny],
    [x0 - nx, y0 - ny],
  ];
}

/** A dimension square to the line between two points, at a fraction of its length. */
export function squareTo(
  field: string,
  [x0, y0]: Point,
  [x1, y1]: Point,
  mm: number,
  at = 0.5,
): SketchDimension {
  const [[ax, ay], , , [bx, by]] = bar([x0, y0], [x1, y1], mm);
  const [dx, dy] = [(x1 - x0) * at, (y1 - y0) * at];
  return { field, from: [ax + dx, ay + dy], to: [bx + dx, by + dy] };
}

/** Points of a dimension in the vehicle at ride height; empty if the sketch has no such view. */
export function placesOf({ views }: Sketch, dimension: SketchDimension): Vec3[] {
  const { view = 0, out = 0 } = dimension;
  const frame = views[view];
  if (frame === undefined) return [];
  return wayOf(dimension).map(([x, y]) =>
    applyPoint(frame.vehicleFromView, [x - frame.at[0], y - frame.at[1], out]),
  );
}
