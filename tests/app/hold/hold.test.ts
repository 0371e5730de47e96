import { beforeEach, describe, expect, it } from 'vitest';
import type { OpenCorner } from '../../../src/app/engine.ts';
import { clearanceText, differenceText } from '../../../src/app/hold/clearanceText.ts';
import { hold, knownOf, letAllGo, letGo, useHold } from '../../../src/app/hold/holdStore.ts';
import type { MeasuredPair } from '../../../src/app/stores/measuredPair.ts';
import { bindingTexts } from '../../../src/app/words.ts';
import { limitFindings } from '../../../src/findings/limitFindings.ts';
import { figuresIn } from '../../../src/report/figures.ts';
import { inventedLimit } from '../../oracles/inventedLimit.ts';

const letters = () => useHold.getState().poses.map(({ letter }) => letter);
beforeEach(letAllGo);

describe('poses held', () => {
  it('take the first letter that is free, each pose once, four at most', () => {
    hold(0, 0);
    hold(0, 0);
    hold(10, 0);
    hold(10, 0.5);
    expect(letters()).toEqual(['A', 'B', 'C']);
    letGo('B');
    hold(-20, 0.5);
    expect(useHold.getState().poses.at(-1)).toEqual({ letter: 'B', travelMm: -20, steer: 0.5 });
    hold(30, 0);
    hold(40, 0);
    expect(letters()).toHaveLength(4);
  });

  it('are known in the corner they were measured in alone', () => {
    const [before, after] = [{}, {}] as [OpenCorner, OpenCorner];
    hold(0, 0);
    useHold.setState({
      corner: before,
      known: { A: { carriers: undefined, measured: undefined, failure: 'out of reach' } },
    });
    expect(knownOf(useHold.getState(), before, 'A')?.failure).toBe('out of reach');
    expect(knownOf(useHold.getState(), after, 'A')).toBeUndefined();
    letGo('A');
    hold(5, 0);
    expect(knownOf(useHold.getState(), before, 'A')).toBeUndefined();
  });
});

it('a pose held or in hand names the joints and dampers that bind there, and no others', () => {
  const tops = inventedLimit({ kind: 'damperOpen', label: 'Damper', unit: 'mm', allowed: 20 });
  const unknown = inventedLimit({ label: 'Tie-rod end', allowed: undefined });
  const limits = limitFindings([inventedLimit(), tops, unknown, inventedLimit({ allowed: 20 })]);
  expect(bindingTexts(limits)).toEqual(['Damper tops out', 'Upper joint binds']);
});

describe('clearances compared', () => {
  const figures = figuresIn('mm');
  const found = (clearanceMm: number, errorMm: number) => ({ clearanceMm, errorMm }) as MeasuredPair;

  it('differ by what they differ, with the errors of both', () => {
    expect(differenceText(found(12.5, 0.1), found(10, 0.2), figures)).toBe('+2.50 ± 0.30');
    expect(differenceText(found(10, 0.2), found(12.5, 0.1), figures)).toBe('−2.50 ± 0.30');
    expect(differenceText(found(3, 0), found(3, 0), figures)).toBe('0.00 ± 0.00');
    // Into contact: a depth counts as negative clearance.
    expect(differenceText(found(-1, 0.25), found(2, 0.25), figures)).toBe('−3.00 ± 0.50');
    expect(clearanceText(found(-1, 0.25), figures)).toBe('−1.00 ± 0.25');
  });

  it('have no difference where one of them has no number', () => {
    expect(differenceText(found(Number.POSITIVE_INFINITY, 0), found(3, 0), figures)).toBeUndefined();
    expect(differenceText(found(3, 0), found(Number.NaN, 0), figures)).toBeUndefined();
    expect(differenceText(undefined, found(3, 0), figures)).toBeUndefined();
    expect(clearanceText(found(Number.POSITIVE_INFINITY, 0), figures)).toBeUndefined();
  });

  it('never tell more than was computed: what rounding takes widens the error', () => {
    expect(differenceText(found(1.006, 0), found(0, 0), figures)).toBe('+1.00 ± 0.01');
  });
});
