import { describe, expect, it } from 'vitest';
import { bleedScrewAtZeroDeg, caliperFigures } from '../../../src/studies/clocking/figures.ts';
import { benchCorner, entryOf } from '../../solids/benchCorner.ts';

/** A body from 100 to 140 mm, with the foot of its screw 30 mm along and `upMm` further out than the middle. */
function withScrew(upMm: number) {
  const corner = benchCorner();
  const caliper = entryOf(corner, 'caliper');
  Object.assign(caliper.body, { innerRadius: 100, outerRadius: 140 });
  Object.assign(caliper.bleedScrew ?? {}, { along: 30, radius: Math.hypot(30, 120 + upMm) });
  return { corner, caliper };
}

describe('the angle of a bleed screw', () => {
  it("is that of the line from the body's middle to the screw's foot", () => {
    // 30 mm along and 30 mm further out than the middle: 45 degrees toward larger clocking.
    const { corner, caliper } = withScrew(30);
    expect(bleedScrewAtZeroDeg(caliper)).toBeCloseTo(45, 9);
    expect(caliperFigures(corner, -45)).toMatchObject({
      bleedScrewDeg: expect.closeTo(0, 9),
      bleedBelowTopMm: expect.closeTo(0, 9),
    });
    // Straight below the middle, the foot is lower by twice its distance from the middle.
    expect(caliperFigures(corner, 135).bleedBelowTopMm).toBeCloseTo(2 * Math.hypot(30, 30), 9);
    // At 90 degrees it is lower by that distance once.
    expect(caliperFigures(corner, 45).bleedBelowTopMm).toBeCloseTo(Math.hypot(30, 30), 9);
  });

  it('is the direction of the foot from the middle for a caliper ahead of or behind the axle', () => {
    const { corner } = withScrew(30);
    // By coordinates: the position of the foot at a clocking, less that of the middle.
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

  it('is undefined without a bleed screw', () => {
    const corner = benchCorner();
    entryOf(corner, 'caliper').bleedScrew = undefined;
    expect(caliperFigures(corner, 10)).toMatchObject({
      bleedScrewDeg: undefined,
      bleedBelowTopMm: undefined,
    });
  });
});
