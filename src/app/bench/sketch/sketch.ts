import type { Carrier } from '../../../design/schema.ts';
import { applyPoint, type Rigid } from '../../../math/rigid.ts';
import type { Vec3 } from '../../../math/vec.ts';

export type Point = readonly [x: number, y: number];

/** A dimension of a part between two points of its sketch. */
export interface SketchDimension {
  /** Field under the part: `mount.boltRadius`. */
  field: string;
  from: Point;
  to: Point;
  /** The points between, of a dimension that does not run straight: a turn. */
  via?: readonly Point[];
  /** Which of the sketch's views it stands in; the first where nothing is said. */
  view?: number;
  /** Where the real one stands off the plane of its view, mm, toward whoever looks at it. */
  out?: number;
}

/** A view of the part in a sketch: which point of the sketch and of the vehicle are the same, and how both lie. */
export interface SketchView {
  /** Where the frame's origin is in the sketch. */
  at: Point;
  /** x and y as in the sketch, z toward whoever looks at it; ride height. */
  vehicleFromView: Rigid;
  /** What its dimensions ride on, where the part has bodies on several carriers. */
  carrier?: Carrier;
}

/** What is drawn, at true scale, mm; x to the right, y up. */
export interface Drawing {
  outlines: readonly (readonly Point[])[];
  /** Lines about which something turns, or from which a turn is told. */
  axes: readonly (readonly [Point, Point])[];
  dimensions: readonly SketchDimension[];
}

/** A drawing of a part. */
export interface Sketch extends Drawing {
  /** What the drawing shows. */
  title: string;
  /** Where its views lie in the vehicle; none where that is not known. */
  views: readonly SketchView[];
}

/** Between a part and a dimension beside it, mm. */
export const ASIDE = 8;

/** Outlines of one half of a section, and the other half on the far side of the axis at x = 0. */
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

/** A turn about a point at a radius, between two angles from straight up, toward +x; rad. */
export function turn(
  field: string,
  about: Point,
  radius: number,
  [fromRad, toRad]: readonly [number, number],
): SketchDimension {
  const points = arc(about, radius, fromRad, toRad);
  return { field, from: points[0], to: points[points.length - 1], via: points.slice(1, -1) };
}

/** All points of a dimension from end to end. */
export const wayOf = ({ from, via = [], to }: SketchDimension): Point[] => [from, ...via, to];

/** Least and greatest x and y of all that is drawn. */
export function boundsOf({ outlines, axes, dimensions }: Drawing): [number, number, number, number] {
  const points = [...outlines.flat(), ...axes.flat(), ...dimensions.flatMap(wayOf)];
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
}

const CIRCLE_STEPS = 32;

/** A circle, or the part of it between two angles from straight up, toward +x. */
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

/** A dimension square to the line from one point to another, at a fraction of the way. */
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

/** A dimension from end to end in the vehicle at ride height; none where its view is not known there. */
export function placesOf({ views }: Sketch, dimension: SketchDimension): Vec3[] {
  const { view = 0, out = 0 } = dimension;
  const frame = views[view];
  if (frame === undefined) return [];
  return wayOf(dimension).map(([x, y]) =>
    applyPoint(frame.vehicleFromView, [x - frame.at[0], y - frame.at[1], out]),
  );
}
