import { describe, expect, it } from 'vitest';
import { bindingSteps, limitFindings } from '../../src/findings/limitFindings.ts';
import type { MeasuredLimit } from '../../src/sweep/limit.ts';
import { inventedLimit } from '../oracles/inventedLimit.ts';

const stateOf = (given: Partial<MeasuredLimit>) => limitFindings([inventedLimit(given)])[0];
const at = (used: number) => ({ travelMm: -50, steer: 1, roadWheelAngleDeg: 20, used });

describe('state of a limit', () => {
  it('binds if more is used than allowed, and reports by how much', () => {
    expect(stateOf({ allowed: 20, worst: at(25), proven: 25.008 })).toMatchObject({
      state: 'binds',
      used: 25,
      left: -5,
      errorBound: expect.closeTo(0.008, 12),
    });
  });

  it('is clear if the proven bound is within the allowed value', () => {
    expect(stateOf({ allowed: 20, worst: at(19), proven: 19.01 })).toMatchObject({ state: 'clear', left: 1 });
    expect(stateOf({ allowed: 20, worst: at(20), proven: 20 }).state).toBe('clear');
  });

  it('binds if a complete proof does not exclude binding', () => {
    expect(stateOf({ allowed: 20, worst: at(19.995), proven: 20.001 }).state).toBe('binds');
  });

  it('is unknown if nothing is proven, no pose is reached or no allowed value is known', () => {
    const open = { allowed: 20, worst: at(19), complete: false };
    expect(stateOf({ ...open, proven: undefined })).toMatchObject({
      state: 'unknown',
      errorBound: undefined,
    });
    expect(stateOf({ ...open, proven: 24 }).state).toBe('unknown');
    expect(stateOf({ ...open, proven: 19.9 }).state).toBe('clear');
    expect(stateOf({ worst: undefined, proven: undefined })).toMatchObject({
      state: 'unknown',
      used: undefined,
    });
    expect(stateOf({ allowed: undefined, worst: at(19), proven: 19 })).toMatchObject({
      state: 'unknown',
      left: undefined,
    });
    // A binding pose was found, so a missing proof does not matter.
    expect(stateOf({ allowed: 20, worst: at(21), complete: false, proven: undefined }).state).toBe('binds');
  });

  it('is reversed for the closed length of a damper', () => {
    const closed = { kind: 'damperClosed', unit: 'mm', allowed: 300 } as const;
    expect(stateOf({ ...closed, worst: at(310), proven: 309.99 })).toMatchObject({
      state: 'clear',
      left: 10,
    });
    expect(stateOf({ ...closed, worst: at(290), proven: 289.99 })).toMatchObject({
      state: 'binds',
      left: -10,
    });
    expect(stateOf({ ...closed, worst: at(300.005), proven: 299.999 }).state).toBe('binds');
  });
});

describe('a list of limits', () => {
  it('has binding limits first, then unknown ones', () => {
    const limits = [
      inventedLimit({ label: 'clear', allowed: 30 }),
      inventedLimit({ label: 'unknown', allowed: undefined }),
      inventedLimit({ label: 'binds', allowed: 10 }),
    ];
    expect(limitFindings(limits).map(({ label }) => label)).toEqual(['binds', 'unknown', 'clear']);
  });

  it('marks the steps at which a limit is exceeded, but no unreachable ones', () => {
    const tilt = inventedLimit({ allowed: 20, usedAtSteps: Float64Array.of(19, 21, Number.NaN, 20) });
    const damper = inventedLimit({
      kind: 'damperClosed',
      allowed: 300,
      usedAtSteps: Float64Array.of(299, 301, Number.NaN, 300),
    });
    const unknown = inventedLimit({ allowed: undefined, usedAtSteps: Float64Array.of(99, 99, 99, 99) });
    expect([...bindingSteps([tilt, damper, unknown], 4)]).toEqual([1, 1, 0, 0]);
    expect([...bindingSteps([tilt], 4)]).toEqual([0, 1, 0, 0]);
    expect([...bindingSteps([], 2)]).toEqual([0, 0]);
  });
});
