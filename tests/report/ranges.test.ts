import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stepBlocks } from '../../src/report/ranges.ts';

const stepsOf = (columns: number, blocks: ReturnType<typeof stepBlocks>) =>
  blocks.flatMap(({ travelFrom, travelTo, steerFrom, steerTo }) => {
    const steps: number[] = [];
    for (let row = travelFrom; row <= travelTo; row++)
      for (let column = steerFrom; column <= steerTo; column++) steps.push(row * columns + column);
    return steps;
  });

describe('step blocks', () => {
  it('contain every step once and no other', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 7 }), fc.uniqueArray(fc.nat(41)), (columns, steps) => {
        const covered = stepsOf(columns, stepBlocks(steps, columns)).sort((a, b) => a - b);
        expect(covered).toEqual([...steps].sort((a, b) => a - b));
      }),
      { seed: 20310506 },
    );
  });

  it('join a rectangle into one block', () => {
    expect(stepBlocks([6, 7, 11, 12], 5)).toEqual([{ travelFrom: 1, travelTo: 2, steerFrom: 1, steerTo: 2 }]);
  });

  it('do not join rows with a row between them', () => {
    expect(stepBlocks([0, 10], 5)).toHaveLength(2);
  });
});
