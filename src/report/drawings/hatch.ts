import type { Point } from './ontoScreen.ts';

/**
 * Parallel lines over what closed outlines enclose, by the even-odd rule: pairs of ends. `slope`: 1 rises to the right of the
 * drawing, −1 falls, both at 45°. `spacing`: between two lines, square to them.
 */
export function hatchLines(
  loops: readonly (readonly Point[])[],
  slope: 1 | -1,
  spacing: number,
): [Point, Point][] {
  // u along the lines, v square to them; y of a drawing is down.
  const uv = ([x, y]: Point): Point => [(x - slope * y) * Math.SQRT1_2, (slope * x + y) * Math.SQRT1_2];
  const xy = ([u, v]: Point): Point => [(u + slope * v) * Math.SQRT1_2, (v - slope * u) * Math.SQRT1_2];
  const turned = loops.map((loop) => loop.map(uv));
  let [low, high] = [Infinity, -Infinity];
  for (const loop of turned) for (const [, v] of loop) [low, high] = [Math.min(low, v), Math.max(high, v)];
  const lines: [Point, Point][] = [];
  // Lines at multiples of the spacing, so that the pieces of one part continue each other.
  for (let k = Math.ceil(low / spacing); k * spacing <= high; k++) {
    const v = k * spacing;
    const crossings: number[] = [];
    for (const loop of turned)
      for (let i = 0; i < loop.length; i++) {
        const [[u0, v0], [u1, v1]] = [loop[i], loop[(i + 1) % loop.length]];
        if (v0 > v !== v1 > v) crossings.push(u0 + ((v - v0) * (u1 - u0)) / (v1 - v0));
      }
    crossings.sort((a, b) => a - b);
    for (let i = 0; i + 1 < crossings.length; i += 2)
      lines.push([xy([crossings[i], v]), xy([crossings[i + 1], v])]);
  }
  return lines;
}
