import { describe, expect, it } from 'vitest';
import { bleedScrewAtZeroDeg, caliperFigures } from '../../../src/studies/clocking/figures.ts';
import { benchCorner, entryOf } from '../../solids/benchCorner.ts';

/** A body from 100 to 140 mm with the foot of its screw 30 mm along and as far out as told. */
function withScrew(upMm: number) {
  const corner = benchCorner();
  const caliper = entryOf(corner, 'caliper');
  Object.assign(caliper.body, { innerRadius: 100, outerRadius: 140 });
  Object.assign(caliper.bleedScrew ?? {}, { along: 30, radius: Math.hypot(30, 120 + upMm) });
  return { corner, caliper };
}

describe('where a bleed screw stands', () => {
  it("is told by the line from the body's middle to its foot", () => {
    // 30 mm along and 30 mm further out than the middle: 45 degrees toward larger clocking.
    const { corner, caliper } = withScrew(30);
    expect(bleedScrewAtZeroDeg(caliper)).toBeCloseTo(45, 9);
    expect(caliperFigures(corner, -45)).toMatchObject({
      bleedScrewDeg: expect.closeTo(0, 9),
      bleedBelowTopMm: expect.closeTo(0, 9),
    });
    // Straight below the middle: lower by twice the way from the middle to the foot.
    expect(caliperFigures(corner, 135).bleedBelowTopMm).toBeCloseTo(2 * Math.hypot(30, 30), 9);
    // At 90 degrees: by that way once.
    expect(caliperFigures(corner, 45).bleedBelowTopMm).toBeCloseTo(Math.hypot(30, 30), 9);
  });

  it('of a caliper that hangs ahead of the axle or behind it, is where its foot is seen from its middle', () => {
    const { corner } = withScrew(30);
    // By coordinates: the foot about the wheel axis at a clocking, less the middle.
    for (const deg of [-170, -90, -20, 0, 60, 90, 150]) {
      const clock = (deg * Math.PI) / 180;
      const at = (along: number, out: number) => ({
        rear: along * Math.cos(clock) + out * Math.sin(clock),
        up: -along * Math.sin(clock) + out * Math.cos(clock),
      });
      const [foot, middle] = [at(30, 150), at(0, 120)];
      const [rear, up] = [foot.rear - middle.rear, foot.up - middle.up];
      const figures = caliperFigures(corner, deg);
      expect(figures.bleedBelowTopMm, `${deg}`).toBeCloseTo(Math.hypot(rear, up) - up, 9);
      expect(Math.cos(((figures.bleedScrewDeg ?? 0) * Math.PI) / 180), `${deg}`).toBeCloseTo(
        up / Math.hypot(rear, up),
        9,
      );
    }
  });

  it('is nowhere without one', () => {
    const corner = benchCorner();
    entryOf(corner, 'caliper').bleedScrew = undefined;
    expect(caliperFigures(corner, 10)).toMatchObject({
      bleedScrewDeg: undefined,
      bleedBelowTopMm: undefined,
    });
  });
});
