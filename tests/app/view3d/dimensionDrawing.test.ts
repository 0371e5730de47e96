import { describe, expect, it } from 'vitest';
import { dimensionDrawing, tickedLine } from '../../../src/app/view3d/dimensionDrawing.ts';

const numbers = (path: string) => [...path.matchAll(/-?\d+(?:\.\d+)?/g)].map(([text]) => Number(text));

describe('a dimension as drawn', () => {
  it('connects both points, with the label beside it', () => {
    const { path, labelAt } = dimensionDrawing({ x: 100, y: 200 }, { x: 200, y: 200 });
    expect(path.startsWith('M100.0 200.0L200.0 200.0')).toBe(true);
    expect(labelAt.x).toBeCloseTo(150, 9);
    // Above on the screen, where y falls.
    expect(labelAt.y).toBeLessThan(200 - 20);
  });

  it('has its label above for either order of the points', () => {
    const { labelAt } = dimensionDrawing({ x: 200, y: 200 }, { x: 100, y: 200 });
    expect(labelAt.y).toBeLessThan(200);
  });

  it('has its arrows outside, pointing in, if there is no room between', () => {
    const { path } = dimensionDrawing({ x: 100, y: 50 }, { x: 104, y: 50 });
    const xs = numbers(path).filter((_, i) => i % 2 === 0);
    expect(Math.min(...xs)).toBeLessThan(90);
    expect(Math.max(...xs)).toBeGreaterThan(114);
  });

  it('is drawn for coincident points', () => {
    const { path, labelAt } = dimensionDrawing({ x: 10, y: 10 }, { x: 10, y: 10 });
    expect(path).not.toContain('NaN');
    expect(Number.isFinite(labelAt.y)).toBe(true);
  });
});

describe('the selected dimension as drawn', () => {
  it('is a line with a square tick at each end and the label above', () => {
    const { path, labelAt } = tickedLine([
      { x: 100, y: 200 },
      { x: 200, y: 200 },
    ]);
    expect(path).toBe('M100.0 200.0L200.0 200.0M100.0 193.0L100.0 207.0M200.0 193.0L200.0 207.0');
    expect(labelAt).toEqual({ x: 150, y: 182 });
    expect(
      tickedLine([
        { x: 200, y: 200 },
        { x: 100, y: 200 },
      ]).labelAt,
    ).toEqual(labelAt);
  });

  it('has its label beside a vertical line, and is drawn for coincident ends', () => {
    const { labelAt } = tickedLine([
      { x: 100, y: 100 },
      { x: 100, y: 300 },
    ]);
    expect(Math.abs(labelAt.x - 100)).toBeGreaterThan(40);
    expect(labelAt.y).toBe(200);
    expect(
      tickedLine([
        { x: 5, y: 5 },
        { x: 5, y: 5 },
      ]).path,
    ).not.toContain('NaN');
  });
});
