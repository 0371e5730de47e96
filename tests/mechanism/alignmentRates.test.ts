/** Rates against differences of the alignment over travel, and axle figures against closed forms of a plane linkage. */
import { describe, expect, it } from 'vitest';
import { applyPoint, invert } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { alignmentAt, wheelPlace } from '../../src/mechanism/alignment.ts';
import { alignmentRates } from '../../src/mechanism/alignmentRates.ts';
import { steerAngles, turningCircleMm } from '../../src/mechanism/axle.ts';
import { prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { UPRIGHT_KINGPIN } from './planarCorners.ts';
import { solved } from './solved.ts';

const RADIANS = Math.PI / 180;
const TYRE = { radiusMm: 310, planeMm: 12 };
/** Step of the central differences, mm of rise. */
const STEP = 0.05;

describe('rates at random poses of random corners', () => {
  it('are the slopes of camber, toe and damper length, and of points fixed in the upright', () => {
    let checked = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const random = mulberry32(seed);
      const mechanism = prepareMechanism(randomCorner(seed));
      const [travelMm, steer] = [between(random, -40, 40), between(random, -0.8, 0.8)];
      const poses = [-STEP, 0, STEP].map((by) => solvePose(mechanism, travelMm + by, steer));
      if (poses.some(({ kind }) => kind !== 'solved')) continue;
      const [below, here, above] = [-STEP, 0, STEP].map((by) => solved(mechanism, travelMm + by, steer));
      const where = `seed ${seed}`;
      const rates = alignmentRates(mechanism, here, TYRE) ?? expect.fail(where);
      const [before, after] = [below, above].map((pose) => alignmentAt(mechanism, pose, TYRE));
      const near = (value: number | undefined, expected: number, off: number, what: string) =>
        expect(Math.abs((value ?? Number.NaN) - expected), `${where} ${what}`).toBeLessThan(off);
      near(rates.camberDegPerM, (1000 * (after.camberDeg - before.camberDeg)) / (2 * STEP), 1e-3, 'camber');
      near(rates.toeDegPerM, (1000 * (after.toeDeg - before.toeDeg)) / (2 * STEP), 1e-3, 'toe');
      const [long, short] = [before.damperLengthMm ?? 0, after.damperLengthMm ?? 0];
      near(rates.motionRatio, (long - short) / (2 * STEP), 1e-6, 'motion ratio');

      // The point of the upright that is at the instant centre does not move in its plane.
      const { contact } = wheelPlace(mechanism, here, TYRE);
      const velocity = (point: Vec3): Vec3 => {
        const local = applyPoint(invert(here.carriers.upright), point);
        const [p, q] = [below, above].map(({ carriers }) => applyPoint(carriers.upright, local));
        return [0, 1, 2].map((i) => (q[i] - p[i]) / (2 * STEP)) as unknown as Vec3;
      };
      const atContact = velocity(contact);
      near(rates.contactForwardPerRise, atContact[0] / atContact[2], 1e-6, 'contact');
      near(rates.rollCentreHeightMm, (contact[1] * atContact[1]) / atContact[2], 1e-2, 'roll centre');
      const { frontViewCentre: front, sideViewCentre: side } = rates;
      if (front !== undefined && Math.abs(front.acrossMm) < 1e5) {
        const v = velocity([contact[0], front.acrossMm, contact[2] + front.heightMm]);
        near(Math.hypot(v[1], v[2]), 0, 1e-4, 'front view');
      }
      if (side !== undefined && Math.abs(side.acrossMm) < 1e5) {
        const v = velocity([side.acrossMm, contact[1], contact[2] + side.heightMm]);
        near(Math.hypot(v[0], v[2]), 0, 1e-4, 'side view');
      }
      checked++;
    }
    expect(checked).toBeGreaterThan(20);
  });
});

/** The wheel centre on the kingpin, so that the contact centre stays as the wheel turns. */
const steering = prepareMechanism({
  ...UPRIGHT_KINGPIN,
  hardpoints: { ...UPRIGHT_KINGPIN.hardpoints, wheelCentre: [0, 700, 320] },
  steering: { rackOutboard: 60, rackInboard: 40, rackDirection: [0, 1, 0] },
});
const ROLLING = { radiusMm: 320, planeMm: 0 };

/** Angle of the wheel for a motion of the tie rod's inner end along Y, by the law of cosines; positive outboard. */
function turnDeg(rackMm: number): number {
  const inner = [-120, 330 - rackMm - 700];
  const reach = Math.hypot(inner[0], inner[1]);
  const corner = Math.acos((reach ** 2 + 120 ** 2 - 370 ** 2) / (2 * reach * 120));
  return (Math.atan2(inner[1], inner[0]) - corner + Math.PI) / RADIANS;
}

describe('an axle with upright kingpins', () => {
  it('has the steer angles of opposite rack travels, whichever wheel is inside', () => {
    const left = steerAngles(steering, solved(steering, 0, 0.5), ROLLING) ?? expect.fail('left turn');
    expect(left.innerDeg).toBeCloseTo(turnDeg(30), 8);
    expect(left.outerDeg).toBeCloseTo(-turnDeg(-30), 8);
    expect(left.pivotDistanceMm).toBeCloseTo(1400, 9);
    // At a steer of -0.75 the rack is 30 mm to the other side, and the other wheel is inside.
    const right = steerAngles(steering, solved(steering, 0, -0.75), ROLLING) ?? expect.fail('right turn');
    expect(right.innerDeg).toBeCloseTo(left.innerDeg, 8);
    expect(right.outerDeg).toBeCloseTo(left.outerDeg, 8);
    expect(steerAngles(steering, solved(steering, 0, 0), ROLLING)).toBeUndefined();
  });

  it('has a turning circle of twice wheelbase / sin(outer angle)', () => {
    const circle = turningCircleMm(steering, solved(steering, 0, -1), ROLLING, 2500);
    expect(circle).toBeCloseTo(5000 / Math.sin(-turnDeg(-40) * RADIANS), 6);
    expect(turningCircleMm(steering, solved(steering, 0, 1), ROLLING, 2500)).toBeUndefined();
  });
});
