import { describe, expect, it } from 'vitest';
import { lowerEndMm, reportedClearance } from '../../src/clearance/reportedClearance.ts';

const OPEN = Number.POSITIVE_INFINITY;

describe('a reported clearance', () => {
  const overlap = (distanceMm: number, openMm: number) =>
    reportedClearance({ kind: 'overlapping', distanceMm, errorMm: 0.1 + openMm, surfaceErrorMm: 0.1 }, 0.01);

  it('keeps its error bar if the depth is known to 0.2 mm or 5 %', () => {
    for (const [distanceMm, openMm] of [
      [-1, 0.19],
      [-20, 0.99],
    ]) {
      const { clearanceMm, errorMm } = overlap(distanceMm, openMm);
      expect(clearanceMm).toBe(distanceMm);
      expect(errorMm).toBeCloseTo(0.11 + openMm, 12);
    }
  });
  it('is otherwise the proven depth, all errors subtracted, without an upper bound', () => {
    for (const [distanceMm, openMm] of [
      [-1, 0.21],
      [-20, 1.01],
      [-20, OPEN],
    ]) {
      const { clearanceMm, errorMm } = overlap(distanceMm, openMm);
      expect(clearanceMm).toBeCloseTo(distanceMm + 0.11, 12);
      expect(errorMm).toBe(OPEN);
    }
  });
  it('is 0 if not even contact is proved', () => {
    expect(overlap(-0.02, 3)).toEqual({ clearanceMm: 0, errorMm: OPEN });
    const touching = { kind: 'touching', distanceMm: 0, errorMm: 1, surfaceErrorMm: 0.1 } as const;
    expect(reportedClearance(touching, 0)).toEqual({ clearanceMm: 0, errorMm: OPEN });
  });
  it('includes the error of the pose for separated parts', () => {
    const apart = { kind: 'separated', distanceMm: 3, errorMm: 0.1, surfaceErrorMm: 0.1 } as const;
    expect(reportedClearance(apart, 0.01)).toEqual({ clearanceMm: 3, errorMm: 0.11 });
  });
  it('is ranked by its lower end, or by its proven value', () => {
    expect(lowerEndMm(-3, 0.5)).toBe(-3.5);
    expect(lowerEndMm(-3, OPEN)).toBe(-3);
  });
});
