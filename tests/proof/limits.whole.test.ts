import { describe, expect, it } from 'vitest';
import { normalize } from '../../src/math/vec.ts';
import { damperLengthMm } from '../../src/mechanism/damperLength.ts';
import { tiltDeg } from '../../src/mechanism/jointTilt.ts';
import { prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import type { Carriers } from '../../src/mechanism/pose.ts';
import { divideAtLockOuts } from '../../src/proof/proveLockedOut.ts';
import { housingAxis, jointOf } from '../../src/solids/jointPlace.ts';
import { LIMIT_TOLERANCE, type MeasuredLimit } from '../../src/sweep/limit.ts';
import { POSE_STATES } from '../../src/sweep/result.ts';
import { stepsThroughZero } from '../../src/sweep/steps.ts';
import { cases, mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { isIn } from '../sweep/finerSweep.ts';
import { limitsAt, randomLimits } from '../sweep/limitCorner.ts';

/** Few steps, so that much has to be proved between them. */
const STEPS = { travelSteps: 5, steerSteps: 5 };
const DENSE = 31;

const CORNERS = cases(4, 50);

describe(`limits of ${CORNERS} random corners, at 961 poses each`, () => {
  it('keeps every pose within the proven bound, and finds a pose within its tolerance', () => {
    let checkedLimits = 0;
    let worseBetween = 0;
    for (let seed = 900; seed < 900 + CORNERS; seed++) {
      const random = mulberry32(seed);
      const suspension = randomCorner(seed);
      const corner = randomLimits(random, suspension);
      const mechanism = prepareMechanism(suspension);
      const { bump, droop } = suspension.travel;
      const travelMm = stepsThroughZero(-droop, bump, STEPS.travelSteps);
      const steer = stepsThroughZero(-1, 1, STEPS.steerSteps);
      const poseState = Uint8Array.from({ length: 25 }, (_, step) =>
        POSE_STATES.indexOf(solvePose(mechanism, travelMm[Math.floor(step / 5)], steer[step % 5]).kind),
      );
      const { lockedOut } = divideAtLockOuts({ mechanism, travelMm, steer }, { travelMm, steer, poseState });
      const limits = limitsAt(corner, STEPS);
      expect(limits.length).toBe(suspension.damper === undefined ? 8 : 10);
      const measures = limits.map((limit) => measureOf(corner, limit));
      const beyond = limits.map(() => Number.NEGATIVE_INFINITY);
      for (const travel of stepsThroughZero(-droop, bump, DENSE)) {
        for (const lock of stepsThroughZero(-1, 1, DENSE)) {
          if (lockedOut.some((part) => isIn(part, travel, lock))) continue;
          const pose = solvePose(mechanism, travel, lock);
          if (pose.kind !== 'solved') continue;
          measures.forEach((measure, k) => {
            const { proven, kind } = limits[k];
            const sign = kind === 'damperClosed' ? -1 : 1;
            beyond[k] = Math.max(beyond[k], sign * (measure(pose.carriers) - (proven ?? Number.NaN)));
          });
        }
      }
      for (const [k, limit] of limits.entries()) {
        const where = `seed ${seed}, ${limit.kind} ${limit.label}`;
        const { worst, proven, complete, usedAtSteps } = limit;
        expect(beyond[k], where).toBeLessThanOrEqual(0);
        expect(complete, where).toBe(true);
        if (worst === undefined || proven === undefined) expect.fail(where);
        expect(Math.abs(proven - worst.used), where).toBeLessThanOrEqual(LIMIT_TOLERANCE);
        // The reported pose uses the reported value.
        const pose = solvePose(mechanism, worst.travelMm, worst.steer);
        if (pose.kind !== 'solved') expect.fail(where);
        expect(measures[k](pose.carriers), where).toBeCloseTo(worst.used, 9);
        checkedLimits += 1;
        const atSteps = limit.kind === 'damperClosed' ? Math.min(...usedAtSteps) : Math.max(...usedAtSteps);
        if (Math.abs(atSteps - worst.used) > LIMIT_TOLERANCE) worseBetween += 1;
      }
    }
    expect(checkedLimits).toBeGreaterThanOrEqual(8 * CORNERS);
    expect(worseBetween).toBeGreaterThan(CORNERS / 5);
  });

  it('keeps to the reported tilt with the proposed housing direction', () => {
    for (let seed = 900; seed < 906; seed++) {
      const suspension = randomCorner(seed);
      const corner = randomLimits(mulberry32(seed), suspension);
      const limits = limitsAt(corner, STEPS);
      const turned = structuredClone(corner);
      for (const { partIndex, betterHousing } of limits)
        if (betterHousing !== undefined && partIndex !== undefined)
          Object.assign(turned.parts[partIndex], { housingDirection: betterHousing.direction });
      limitsAt(turned, { travelSteps: 15, steerSteps: 15 }).forEach(({ worst, label }, k) => {
        const { betterHousing, worst: before } = limits[k];
        if (betterHousing === undefined) return;
        const where = `seed ${seed}, ${label}`;
        expect(worst?.used, where).toBeLessThanOrEqual(betterHousing.mostTiltDeg);
        expect(betterHousing.mostTiltDeg, where).toBeLessThan((before?.used ?? 0) + 4 * LIMIT_TOLERANCE);
      });
    }
  });
});

/** Computes the tilt or length of a limit at a pose. */
function measureOf(corner: ReturnType<typeof randomLimits>, { kind, partIndex }: MeasuredLimit) {
  const entry = corner.parts[partIndex ?? 0];
  const { damper } = corner.suspension;
  if (kind !== 'jointTilt' || entry.kind !== 'joint')
    return (carriers: Carriers) => damperLengthMm(carriers, damper as NonNullable<typeof damper>);
  const axes = {
    bolt: { carrier: jointOf(corner, entry.at).bolt, direction: normalize(entry.boltDirection) },
    housing: { carrier: jointOf(corner, entry.at).housing, direction: housingAxis(corner, entry) },
  };
  return (carriers: Carriers) => tiltDeg(carriers, axes);
}
