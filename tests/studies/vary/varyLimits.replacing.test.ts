import { beforeEach, describe, expect, it, vi } from 'vitest';
import { measureLimits } from '../../../src/proof/limits.ts';
import { rangeAxis } from '../../../src/studies/vary/rangeAxis.ts';
import { variedField } from '../../../src/studies/vary/variedField.ts';
import { type Study, varyCorner } from '../../../src/studies/vary/vary.ts';
import { readDesign } from '../../design/readDesign.ts';
import { damperOf, jointAt } from '../../sweep/limitCorner.ts';
import { ARM_MM, BUMP_MM, box, boxCorner, FEW_STEPS, PIVOT, parallelArms } from './boxCorner.ts';

vi.mock('../../../src/proof/limits.ts', async (original) => {
  const limits = await original<typeof import('../../../src/proof/limits.ts')>();
  return { ...limits, measureLimits: vi.fn(limits.measureLimits) };
});
beforeEach(() => {
  vi.mocked(measureLimits).mockClear();
});

/** Varies one field of a corner over a range. */
const vary = (source: Record<string, unknown>, name: string, from: number, to: number, step: number) =>
  varyCorner(readDesign(source), [rangeAxis(variedField(source, name), { from, to, step }, 'mm')], {
    settings: FEW_STEPS,
  });
const verdicts = (study: Study) => study.cells.map(({ tried }) => tried.verdict);

/** Two boxes on the upright, 40 mm apart and far from all other parts. */
const boxes = [
  box('sensor', 'upright', [0, 640, 400], [20, 20, 20]),
  box('stay', 'upright', [60, 640, 400], [20, 20, 20]),
];

/**
 * The upright does not turn and the arm turns by asin(h / ARM_MM), which is the tilt of a joint with its housing
 * along its bolt.
 */
const TILT_DEG = (Math.asin(BUMP_MM / ARM_MM) * 180) / Math.PI;
const uniball = (allowedTiltDeg: number) =>
  jointAt('lowerJoint', { id: 'uniball', label: 'Lower uniball', allowedTiltDeg });

/** A damper from the chassis to the lower arm's middle, vertical at ride height. */
const MOUNTS = {
  chassisMount: [0, PIVOT.y + 180, 640],
  armMount: [0, PIVOT.y + 180, PIVOT.z],
  on: 'lowerArm',
};
const damped = { suspension: { ...parallelArms, damper: MOUNTS } };
/** Length at a rise of the wheel, mm: the arm's mount turns with the arm about the pivots. */
function lengthAt(riseMm: number): number {
  const sine = riseMm / ARM_MM;
  return Math.hypot(180 - 180 * Math.sqrt(1 - sine ** 2), 640 - PIVOT.z - 180 * sine);
}
const LONGEST_MM = lengthAt(-50);

describe('a value with which a limit binds', () => {
  it('does not fit, with the border of an allowed tilt as in the closed form', async () => {
    const study = await vary(boxCorner([uniball(12)]), 'uniball.allowedTiltDeg', 8, 12, 1);
    expect(verdicts(study)).toEqual(['fails', 'fails', 'fits', 'fits', 'fits']);
    const [interval] = study.intervals ?? [];
    expect(interval.first.amount).toBeGreaterThanOrEqual(TILT_DEG);
    expect(interval.below?.values[0].amount).toBeLessThan(TILT_DEG + 0.02);
    const [limit] = study.cells[1].tried.limits;
    expect(limit).toMatchObject({ kind: 'jointTilt', label: 'Lower uniball', state: 'binds', allowed: 9 });
    expect(limit.left).toBeCloseTo(9 - TILT_DEG, 6);
    expect(limit.worst?.travelMm).toBe(BUMP_MM);
    expect(study).toMatchObject({ limitCount: 1, concernedLimitCount: 1, unknownLimits: [] });
  });

  it('does not fit, with the border of a damper length as in the closed form', async () => {
    const source = boxCorner([damperOf({ openLength: 500, bodyDiameter: 40, rodDiameter: 14 })], damped);
    const study = await vary(source, 'damper.openLength', 430, 440, 5);
    expect(LONGEST_MM).toBeGreaterThan(430);
    expect(LONGEST_MM).toBeLessThan(440);
    const [interval] = study.intervals ?? [];
    expect(interval.first.amount).toBeGreaterThanOrEqual(LONGEST_MM);
    expect(interval.below?.values[0].amount).toBeLessThan(LONGEST_MM + 0.02);
    expect(interval.below?.tried.limits[0]).toMatchObject({ kind: 'damperOpen', state: 'binds' });
    expect(study).toMatchObject({ limitCount: 2, concernedLimitCount: 1 });
  });

  it('does not fit even if the value does not change the limit', async () => {
    const study = await vary(boxCorner([uniball(9), ...boxes]), 'stay.centre[0]', 60, 80, 10);
    expect(verdicts(study)).toEqual(['fails', 'fails', 'fails']);
    expect(study.intervals).toEqual([]);
    for (const { tried } of study.cells) {
      expect(tried.pairs.some(({ a, b }) => a === 'sensor' && b === 'stay')).toBe(true);
      expect(tried.limits.map(({ label, state }) => [label, state])).toEqual([['Lower uniball', 'binds']]);
    }
    expect(study).toMatchObject({ limitCount: 1, concernedLimitCount: 1 });
  });
});

describe('a limit that is clear', () => {
  it('is not listed if no value changes it, and is measured once', async () => {
    const study = await vary(boxCorner([uniball(12), ...boxes]), 'stay.size[0]', 20, 40, 10);
    expect(verdicts(study)).toEqual(['fits', 'fits', 'fits']);
    expect(study.cells.flatMap(({ tried }) => tried.limits)).toEqual([]);
    expect(study).toMatchObject({ limitCount: 1, concernedLimitCount: 0, unknownLimits: [] });
    expect(measureLimits).toHaveBeenCalledTimes(1);
  });

  it('is not listed if a new measurement gives the same result', async () => {
    const study = await vary(boxCorner([uniball(12), ...boxes]), 'uniball.boltLength', 60, 70, 10);
    expect(measureLimits).toHaveBeenCalledTimes(2);
    expect(study.concernedLimitCount).toBe(0);
  });
});

describe('a limit that is unknown', () => {
  const noLength = damperOf({ bodyDiameter: 40, rodDiameter: 14 });

  it('makes a value unknown if the value changes it', async () => {
    const source = boxCorner([noLength], damped);
    const study = await vary(source, 'suspension.damper.chassisMount[2]', 640, 660, 10);
    expect(verdicts(study)).toEqual(['unknown', 'unknown', 'unknown']);
    expect(study.cells[1].tried.limits[0]).toMatchObject({ kind: 'damperOpen', state: 'unknown' });
    expect(study.unknownLimits).toEqual([]);
  });

  it('is listed once if no value changes it', async () => {
    const study = await vary(boxCorner([noLength, ...boxes], damped), 'stay.size[0]', 20, 40, 10);
    expect(verdicts(study)).toEqual(['fits', 'fits', 'fits']);
    expect(study.unknownLimits.map(({ kind, state }) => [kind, state])).toEqual([['damperOpen', 'unknown']]);
    expect(study.concernedLimitCount).toBe(0);
  });
});

it('a value is unknown if the suspension locks out and only a limit is checked', async () => {
  const suspension = { ...parallelArms, travel: { bump: 400, droop: 50 } };
  const source = boxCorner([uniball(80)], { suspension });
  const study = await vary(source, 'uniball.allowedTiltDeg', 88, 90, 1);
  expect(study.cells.map(({ tried }) => tried.locksOut)).toEqual([true, true, true]);
  expect(verdicts(study)).not.toContain('fits');
});
