import { describe, expect, it } from 'vitest';
import { cellEdges, fractionOf, nearestIndex, stepBy, valueAt } from '../../../src/app/kit/axis.ts';
import { keyTarget } from '../../../src/app/kit/keyTarget.ts';

const TRAVEL = { fromMm: -60, toMm: 80 };
/** Left lock, the larger rack travel, at the left. */
const RACK = { fromMm: 45, toMm: -30 };
const STEPS = { small: 1, large: 10 };
const key = (name: string, shiftKey = false) => ({ key: name, shiftKey });

describe('an axis', () => {
  it.each([TRAVEL, RACK])('inverts fractions to values, clamped at the ends', (axis) => {
    for (const fraction of [0, 0.25, 0.5, 1]) {
      expect(fractionOf(axis, valueAt(axis, fraction))).toBeCloseTo(fraction, 12);
    }
    expect(valueAt(axis, -3)).toBe(axis.fromMm);
    expect(valueAt(axis, 7)).toBe(axis.toMm);
  });

  it('maps the only value of zero length to the middle', () => {
    expect(fractionOf({ fromMm: 0, toMm: 0 }, 0)).toBe(0.5);
  });

  it('is divided into cells halfway between unequal steps, in either order', () => {
    expect(cellEdges([0, 0.2, 1])).toEqual([0, 0.1, 0.6, 1]);
    expect(cellEdges([1, 0.2, 0])).toEqual([1, 0.6, 0.1, 0]);
  });

  it('steps from the nearest step and stops at the last', () => {
    const steps = Float64Array.of(-60, -20, 0, 80);
    expect(nearestIndex(steps, 39)).toBe(2);
    expect(stepBy(steps, -18, 1)).toBe(0);
    expect(stepBy(steps, 0, 5)).toBe(80);
    expect(stepBy(steps, 0, Number.NEGATIVE_INFINITY)).toBe(-60);
    expect(stepBy(steps, 12.5, 0)).toBe(12.5);
  });
});

describe('keys on a rule', () => {
  it('move the way the arrow points', () => {
    expect(keyTarget(key('ArrowUp'), TRAVEL, 0, STEPS)).toBe(1);
    expect(keyTarget(key('ArrowDown', true), TRAVEL, 0, STEPS)).toBe(-10);
    // Right on the screen is toward right lock, so the rack travel decreases.
    expect(keyTarget(key('ArrowRight'), RACK, 0, STEPS)).toBe(-1);
    expect(keyTarget(key('ArrowLeft', true), RACK, 0, STEPS)).toBe(10);
  });

  it('go to the ends and not beyond, and back to zero', () => {
    expect(keyTarget(key('Home'), RACK, 3, STEPS)).toBe(45);
    expect(keyTarget(key('End'), RACK, 3, STEPS)).toBe(-30);
    expect(keyTarget(key('PageUp'), TRAVEL, 78, STEPS)).toBe(80);
    expect(keyTarget(key('0'), TRAVEL, 31, STEPS)).toBe(0);
  });

  it('ignore other keys', () => {
    expect(keyTarget(key('Tab'), TRAVEL, 0, STEPS)).toBeUndefined();
  });
});
