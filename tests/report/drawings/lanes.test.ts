import { expect, it } from 'vitest';
import { lanesFor } from '../../../src/report/drawings/lanes.ts';
import { between, mulberry32 } from '../../oracles/random.ts';

it('puts spans that follow each other in one lane, and a longer one over them further out', () => {
  expect(
    lanesFor([
      [0, 40],
      [10, 20],
      [20, 30],
      [50, 60],
    ]),
  ).toEqual([1, 0, 0, 0]);
});

it('never puts two spans that overlap in one lane, nor a longer one nearer than a shorter one', () => {
  const random = mulberry32(5);
  for (let round = 0; round < 200; round++) {
    const spans = Array.from({ length: 8 }, (): [number, number] => {
      const from = between(random, 0, 100);
      return [from, from + between(random, 1, 60)];
    });
    const lanes = lanesFor(spans);
    spans.forEach(([a, b], i) => {
      spans.forEach(([c, d], j) => {
        if (i === j || a >= d || c >= b) return;
        if (b - a > d - c) expect(lanes[i]).toBeGreaterThan(lanes[j]);
      });
    });
  }
});
