import { expect, it } from 'vitest';
import { hatchLines } from '../../../src/report/drawings/hatch.ts';
import type { Point } from '../../../src/report/drawings/ontoScreen.ts';

const square = (half: number): Point[] => [
  [-half, -half],
  [half, -half],
  [half, half],
  [-half, half],
];

it.each([1, -1] as const)('covers an outline without its hole with lines at 45° (slope %i)', (slope) => {
  const spacing = 0.25;
  const lines = hatchLines([square(20), square(8)], slope, spacing);
  let sum = 0;
  for (const [[x0, y0], [x1, y1]] of lines) {
    // On a drawing y is down: a line that rises to the right has y0 > y1.
    expect((y0 - y1) / (x1 - x0)).toBeCloseTo(slope, 9);
    sum += Math.hypot(x1 - x0, y1 - y0);
    const [x, y] = [(x0 + x1) / 2, (y0 + y1) / 2];
    expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThanOrEqual(20);
    expect(Math.max(Math.abs(x), Math.abs(y))).toBeGreaterThanOrEqual(8 - 1e-9);
  }
  // The lines times their distance are the area.
  expect((sum * spacing) / (40 ** 2 - 16 ** 2)).toBeCloseTo(1, 2);
});
