import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../../src/design/parse.ts';
import { alignmentOver } from '../../../src/studies/limits/alignmentStudy.ts';
import { readDesign } from '../../design/readDesign.ts';
import { ARM_MM, box, boxCorner, parallelArms } from '../vary/boxCorner.ts';

const PARTS = [box('one', 'upright', [0, 640, 350], [40, 40, 30])];
const cornerWith = (changes: Record<string, unknown>) => readDesign(boxCorner(PARTS, changes)).corner;
const STEERED = {
  ...parallelArms,
  steering: { rackOutboard: 40, rackInboard: 30 },
  damper: { chassisMount: [0, 400, 700], armMount: [0, 500, 230], on: 'lowerArm' },
};

describe('alignment over travel and steering', () => {
  it('has the multiples of the step and both ends, each once', () => {
    const { travelMm, steer, steps } = alignmentOver(cornerWith({ suspension: STEERED }), 25);
    expect(travelMm).toEqual([-50, -25, 0, 25, 50, 60]);
    expect(steer).toEqual([-1, -25 / 30, 0, 25 / 40, 1]);
    expect(steps.map(({ travelMm: travel, steer: lock }) => [travel, lock])).toEqual(
      travelMm.flatMap((travel) => steer.map((lock) => [travel, lock])),
    );
    // In Float64, three times 25.4 is not 76.2.
    const inches = { ...STEERED, travel: { bump: '3 in', droop: 152.4 } };
    expect(alignmentOver(cornerWith({ suspension: inches }), 25.4).travelMm).toHaveLength(10);
    expect(() => alignmentOver(cornerWith({ suspension: STEERED }), 0.1)).toThrow(/at most 401/);
  });

  it('has the closed forms of parallel arms', () => {
    const { steps } = alignmentOver(cornerWith({ suspension: STEERED }), 25);
    const at = (travel: number) =>
      steps.find(({ travelMm, steer }) => travelMm === travel && steer === 0)?.figures ?? expect.fail();
    for (const travel of [-50, 25, 60]) {
      const { halfTrackMm, wheelRecessionMm, rates, camberDeg } = at(travel);
      const level = Math.sqrt(ARM_MM ** 2 - travel ** 2);
      expect(halfTrackMm).toBeCloseTo(720 - ARM_MM + level, 9);
      expect(wheelRecessionMm).toBeCloseTo(0, 9);
      expect(camberDeg).toBeCloseTo(0, 9);
      expect(rates?.camberDegPerM).toBeCloseTo(0, 5);
      expect(rates?.rollCentreHeightMm).toBeCloseTo((-halfTrackMm * travel) / level, 5);
      // The mount is 200 mm out on an arm that turns by asin(travel / arm).
      const [out, up] = [(200 * level) / ARM_MM, (200 * travel) / ARM_MM];
      const length = Math.hypot(300 + out - 400, 230 + up - 700);
      // Its velocity per rise of the wheel: (-up, out) / level.
      const lengthRate = ((out - 100) * -up + (up - 470) * out) / length / level;
      expect(rates?.motionRatio).toBeCloseTo(-lengthRate, 9);
    }
  });

  it('leaves unknown what needs values of the vehicle that the file does not give', () => {
    const locked = (vehicle?: object) =>
      alignmentOver(cornerWith({ suspension: STEERED, ...(vehicle && { vehicle }) }), 30).steps.find(
        ({ travelMm, steer }) => travelMm === 0 && steer === -1,
      )?.figures ?? expect.fail();
    const { ackermannPercent, turningCircleMm, antiDivePercent, angles } = locked();
    expect([ackermannPercent, turningCircleMm, antiDivePercent]).toEqual([undefined, undefined, undefined]);
    expect(angles?.innerDeg).toBeGreaterThan(0);
    const known = locked({ wheelbase: 2500, frontBrakePercent: 60, centreOfGravityHeight: 500 });
    expect(known.ackermannPercent).toBeTypeOf('number');
    expect(known.turningCircleMm).toBeGreaterThan(5000);
    expect(known.antiDivePercent).toBeCloseTo(0, 6);
    expect(locked({ wheelbase: 2500, frontBrakePercent: 60 }).antiDivePercent).toBeUndefined();
  });

  it('rejects values of the vehicle that cannot be, and keeps the hash of the corner', () => {
    const bad = parseDesign(
      JSON.stringify(boxCorner(PARTS, { vehicle: { wheelbase: 0, frontBrakePercent: 120 } })),
    );
    expect(bad.kind === 'bad' && bad.problems.map(({ path }) => path)).toEqual([
      'vehicle.wheelbase',
      'vehicle.frontBrakePercent',
    ]);
    const hashOf = (changes: Record<string, unknown>) => readDesign(boxCorner(PARTS, changes)).hash;
    expect(hashOf({ vehicle: { wheelbase: 2500 } })).toBe(hashOf({}));
  });
});
