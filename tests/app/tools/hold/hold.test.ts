import { beforeEach, describe, expect, it } from 'vitest';
import { bindingTexts } from '../../../../src/app/kit/words.ts';
import type { OpenCorner } from '../../../../src/app/state/engine.ts';
import type { MeasuredPair } from '../../../../src/app/state/measuredPair.ts';
import { clearanceText, differenceText } from '../../../../src/app/tools/hold/clearanceText.ts';
import {
  heldResult,
  hold,
  releaseAllPoses,
  releasePose,
  useHold,
} from '../../../../src/app/tools/hold/holdStore.ts';
import { limitFindings } from '../../../../src/findings/limitFindings.ts';
import { figuresIn } from '../../../../src/report/figures.ts';
import { inventedLimit } from '../../../oracles/inventedLimit.ts';

const letters = () => useHold.getState().poses.map(({ letter }) => letter);
beforeEach(releaseAllPoses);

describe('held poses', () => {
  it('take the first free letter, hold a pose once, and are four at most', () => {
    hold(0, 0);
    hold(0, 0);
    hold(10, 0);
    hold(10, 0.5);
    expect(letters()).toEqual(['A', 'B', 'C']);
    releasePose('B');
    hold(-20, 0.5);
    expect(useHold.getState().poses.at(-1)).toEqual({ letter: 'B', travelMm: -20, steer: 0.5 });
    hold(30, 0);
    hold(40, 0);
    expect(letters()).toHaveLength(4);
  });

  it('have results only for the corner in which they were measured', () => {
    const [before, after] = [{}, {}] as [OpenCorner, OpenCorner];
    hold(0, 0);
    useHold.setState({
      corner: before,
      results: { A: { carriers: undefined, measured: undefined, failure: 'out of reach' } },
    });
    expect(heldResult(useHold.getState(), before, 'A')?.failure).toBe('out of reach');
    expect(heldResult(useHold.getState(), after, 'A')).toBeUndefined();
    releasePose('A');
    hold(5, 0);
    expect(heldResult(useHold.getState(), before, 'A')).toBeUndefined();
  });
});

it('names the joints and dampers that bind at a pose, and no others', () => {
  const tops = inventedLimit({ kind: 'damperOpen', label: 'Damper', unit: 'mm', allowed: 20 });
  const unknown = inventedLimit({ label: 'Tie-rod end', allowed: undefined });
  const limits = limitFindings([inventedLimit(), tops, unknown, inventedLimit({ allowed: 20 })]);
  expect(bindingTexts(limits)).toEqual(['Damper tops out', 'Upper joint binds']);
});

describe('the difference of two clearances', () => {
  const figures = figuresIn('mm');
  const found = (clearanceMm: number, errorMm: number) => ({ clearanceMm, errorMm }) as MeasuredPair;

  it('is signed and has the sum of both errors', () => {
    expect(differenceText(found(12.5, 0.1), found(10, 0.2), figures)).toBe('+2.50 ± 0.30');
    expect(differenceText(found(10, 0.2), found(12.5, 0.1), figures)).toBe('−2.50 ± 0.30');
    expect(differenceText(found(3, 0), found(3, 0), figures)).toBe('0.00 ± 0.00');
    // A depth is a negative clearance.
    expect(differenceText(found(-1, 0.25), found(2, 0.25), figures)).toBe('−3.00 ± 0.50');
    expect(clearanceText(found(-1, 0.25), figures)).toBe('−1.00 ± 0.25');
  });

  it('is undefined if one of them is not finite', () => {
    expect(differenceText(found(Number.POSITIVE_INFINITY, 0), found(3, 0), figures)).toBeUndefined();
    expect(differenceText(found(3, 0), found(Number.NaN, 0), figures)).toBeUndefined();
    expect(differenceText(undefined, found(3, 0), figures)).toBeUndefined();
    expect(clearanceText(found(Number.POSITIVE_INFINITY, 0), figures)).toBeUndefined();
  });

  it('adds the rounding of the value to the error', () => {
    expect(differenceText(found(1.006, 0), found(0, 0), figures)).toBe('+1.00 ± 0.01');
  });
});
