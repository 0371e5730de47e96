import { describe, expect, it } from 'vitest';
import { lowerEndMm, reportedClearance } from '../../src/clearance/reportedClearance.ts';

const OPEN = Number.POSITIVE_INFINITY;

describe('a clearance as it is reported', () => {
  const overlap = (distanceMm: number, openMm: number) =>
    reportedClearance({ kind: 'overlapping', distanceMm, errorMm: 0.1 + openMm, surfaceErrorMm: 0.1 }, 0.01);

  it('keeps its error bar where the depth is known to 0.2 mm or 5 %', () => {
    for (const [distanceMm, openMm] of [
      [-1, 0.19],
      [-20, 0.99],
    ]) {
      const { clearanceMm, errorMm } = overlap(distanceMm, openMm);
      expect(clearanceMm).toBe(distanceMm);
      expect(errorMm).toBeCloseTo(0.11 + openMm, 12);
    }
  });
  it('is the proven depth without an upper bound otherwise: all errors taken off', () => {
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
  it('never claims daylight where not even contact is proven', () => {
    expect(overlap(-0.02, 3)).toEqual({ clearanceMm: 0, errorMm: OPEN });
    const touching = { kind: 'touching', distanceMm: 0, errorMm: 1, surfaceErrorMm: 0.1 } as const;
    expect(reportedClearance(touching, 0)).toEqual({ clearanceMm: 0, errorMm: OPEN });
  });
  it('of parts that are apart adds the error of the pose', () => {
    const apart = { kind: 'separated', distanceMm: 3, errorMm: 0.1, surfaceErrorMm: 0.1 } as const;
    expect(reportedClearance(apart, 0.01)).toEqual({ clearanceMm: 3, errorMm: 0.11 });
  });
  it('is ranked by its lower end, or by what is proven of it', () => {
    expect(lowerEndMm(-3, 0.5)).toBe(-3.5);
    expect(lowerEndMm(-3, OPEN)).toBe(-3);
  });
});
