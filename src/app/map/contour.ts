/** A straight segment of a contour in the axes of `xs` and `ys`. */
export interface Segment {
  x1: number;
  y1: number;
  x2: number;
  y2: number;
}

/**
 * Zero contour of a field given at the nodes of a grid, linear between the nodes (marching squares).
 * `values[row * xs.length + column]` is the value at `(xs[column], ys[row])`. A cell with a NaN corner has no contour;
 * +Infinity counts as `capMm`. If two opposite corners of a cell are below zero, the mean of the four decides whether they
 * are connected.
 */
export function zeroContour(
  xs: readonly number[],
  ys: readonly number[],
  values: ArrayLike<number>,
  capMm: number,
): Segment[] {
  const segments: Segment[] = [];
  const at = (column: number, row: number) => Math.min(values[row * xs.length + column], capMm);
  for (let row = 0; row + 1 < ys.length; row++) {
    for (let column = 0; column + 1 < xs.length; column++) {
      const corners = [
        { x: xs[column], y: ys[row], v: at(column, row) },
        { x: xs[column + 1], y: ys[row], v: at(column + 1, row) },
        { x: xs[column + 1], y: ys[row + 1], v: at(column + 1, row + 1) },
        { x: xs[column], y: ys[row + 1], v: at(column, row + 1) },
      ];
      if (corners.some(({ v }) => Number.isNaN(v))) continue;
      const crossings = corners.flatMap((a, i) => {
        const b = corners[(i + 1) % 4];
        if (a.v < 0 === b.v < 0) return [];
        const t = a.v / (a.v - b.v);
        return [{ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) }];
      });
      const join = (i: number, j: number) =>
        segments.push({ x1: crossings[i].x, y1: crossings[i].y, x2: crossings[j].x, y2: crossings[j].y });
      if (crossings.length === 2) join(0, 1);
      if (crossings.length === 4) {
        const mean = corners.reduce((sum, { v }) => sum + v, 0) / 4;
        // Crossing i is between corners i and i + 1; the segments cut off the two corners whose sign differs from the mean.
        const odd = mean < 0 === corners[0].v < 0;
        join(0, odd ? 1 : 3);
        join(odd ? 2 : 1, odd ? 3 : 2);
      }
    }
  }
  return segments;
}
