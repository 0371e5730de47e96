export type Point = readonly [x: number, y: number];

/** A dimension of a part between two points of its sketch. */
export interface SketchDimension {
  /** Field under the part: `mount.boltRadius`. */
  field: string;
  from: Point;
  to: Point;
}

/** A drawing of a part at true scale, mm; x to the right, y up. */
export interface Sketch {
  /** What the drawing shows. */
  title: string;
  outlines: readonly (readonly Point[])[];
  /** Lines about which something turns. */
  axes: readonly (readonly [Point, Point])[];
  dimensions: readonly SketchDimension[];
}

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

/** Least and greatest x and y of all that is drawn. */
export function boundsOf({ outlines, axes, dimensions }: Sketch): [number, number, number, number] {
  const points = [...outlines.flat(), ...axes.flat(), ...dimensions.flatMap(({ from, to }) => [from, to])];
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
}
