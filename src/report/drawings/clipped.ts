import type { Point } from './ontoScreen.ts';
import type { Box } from './path.ts';

/** The part of a closed outline within a box; empty if none is. (The method of Sutherland and Hodgman.) */
export function clipped(outline: readonly Point[], { left, top, width, height }: Box): Point[] {
  const sides: readonly (readonly [axis: 0 | 1, sign: number, limit: number])[] = [
    [0, 1, left],
    [0, -1, left + width],
    [1, 1, top],
    [1, -1, top + height],
  ];
  let points = [...outline];
  for (const [axis, sign, limit] of sides) {
    const over = (point: Point) => sign * (point[axis] - limit);
    points = points.flatMap((point, i) => {
      const before = points[(i + points.length - 1) % points.length];
      const [is, was] = [over(point), over(before)];
      const crossing = (): Point => {
        const s = was / (was - is);
        const at = [before[0] + s * (point[0] - before[0]), before[1] + s * (point[1] - before[1])];
        at[axis] = limit;
        return [at[0], at[1]];
      };
      if (is >= 0) return was >= 0 ? [point] : [crossing(), point];
      return was >= 0 ? [crossing()] : [];
    });
  }
  return points;
}
