import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/report/drawings/ontoScreen.ts';
import { anchorIn, coveringOf, spread } from '../../../src/report/drawings/partNames.ts';
import { between, mulberry32 } from '../../oracles/random.ts';

const rectangle = (left: number, top: number, right: number, bottom: number): Point[] => [
  [left, top],
  [right, top],
  [right, bottom],
  [left, bottom],
];

describe('the place that a leader points to', () => {
  it('is in the middle of a rectangle', () => {
    const [x, y] = anchorIn(coveringOf([rectangle(0, 0, 260, 26)]), []) ?? [Number.NaN, Number.NaN];
    expect(Math.abs(y - 13)).toBeLessThan(2);
    expect(x).toBeGreaterThan(13);
    expect(x).toBeLessThan(247);
  });

  it('is where no other part covers the part, and not in a hole', () => {
    const part = coveringOf([rectangle(0, 0, 100, 100), rectangle(60, 10, 90, 90).reverse()]);
    const other = coveringOf([rectangle(-10, -10, 30, 110)]);
    const [x] = anchorIn(part, [other]) ?? [Number.NaN];
    expect(x).toBeGreaterThan(30);
    expect(x).toBeLessThan(60);
  });

  it('does not exist on a part that others cover', () => {
    const part = coveringOf([rectangle(0, 0, 100, 100)]);
    expect(anchorIn(part, [coveringOf([rectangle(-1, -1, 101, 101)])])).toBeUndefined();
  });
});

describe('the heights of names', () => {
  it('are those wanted where there is room', () => {
    expect(spread([0, 10, 30], 5, [-5, 50], [])).toEqual([0, 10, 30]);
  });

  it('are centred on what is wanted by several', () => {
    expect(spread([20, 20, 20], 5, [0, 50], [])).toEqual([15, 20, 25]);
  });

  it('keep their distance, their order and clear of what is blocked, and leave out names without room', () => {
    const random = mulberry32(9);
    for (let round = 0; round < 100; round++) {
      const wanted = Array.from({ length: 6 }, () => between(random, 0, 60)).sort((a, b) => a - b);
      const blocked = [between(random, 0, 60), between(random, 0, 60)];
      const heights = spread(wanted, 5, [0, 60], blocked).filter((y) => y !== undefined);
      expect(heights).toHaveLength(6);
      heights.forEach((y, i) => {
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(60);
        if (i > 0) expect(y - heights[i - 1]).toBeGreaterThan(4.999);
        for (const b of blocked) expect(Math.abs(y - b)).toBeGreaterThan(2.5);
      });
    }
    expect(spread([1, 2, 3], 5, [0, 6], []).filter((y) => y !== undefined)).toHaveLength(2);
  });
});
