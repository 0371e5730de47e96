/**
 * Rates, instant centres and axle figures. The rows of the Project Chrono hardpoints (see mechanismHardpoints.ts) were
 * computed independently of this program: a velocity solve of the linkage, confirmed by central differences to 1e-8. The
 * sources of the other figures are named beside them.
 */
import { describe, expect, it } from 'vitest';
import { alignmentRates } from '../../src/mechanism/alignmentRates.ts';
import { ackermannPercent, antiDivePercent, trueOuterDeg } from '../../src/mechanism/axle.ts';
import { prepareMechanism } from '../../src/mechanism/mechanism.ts';
import { cornerOf } from '../mechanism/planarCorners.ts';
import { solved } from '../mechanism/solved.ts';
import { HMMWV, HMMWV_TYRE_RADIUS_MM } from './mechanismHardpoints.ts';

const at = (...[mechanism, pose, tyre]: Parameters<typeof alignmentRates>) =>
  alignmentRates(mechanism, pose, tyre) ?? expect.fail('no rates');

describe('HMMWV front at ride height', () => {
  const mechanism = prepareMechanism(HMMWV);
  const rates = at(mechanism, solved(mechanism, 0, 0), { radiusMm: HMMWV_TYRE_RADIUS_MM, planeMm: 0 });

  it('has the published rates of camber and toe, and motion ratio', () => {
    expect(rates.camberDegPerM).toBeCloseTo(-23.1235, 4);
    expect(rates.toeDegPerM).toBeCloseTo(-5.95097, 4);
    expect(rates.motionRatio).toBeCloseTo(0.453653, 6);
  });

  it('has the instant centres of its velocity, and the roll centre on the line to one of them', () => {
    expect(rates.frontViewCentre?.acrossMm).toBeCloseTo(-1567.816, 3);
    expect(rates.frontViewCentre?.heightMm).toBeCloseTo(954.302, 3);
    // The source gives X from the wheel centre.
    expect((rates.sideViewCentre?.acrossMm ?? 0) + 40).toBeCloseTo(-1693.013, 3);
    expect(rates.sideViewCentre?.heightMm).toBeCloseTo(353.371, 3);
    expect(rates.rollCentreHeightMm).toBeCloseTo(350.4759, 3);
    expect(rates.contactForwardPerRise).toBeCloseTo(0.208723, 6);
  });

  it('has an anti-dive of 56.405 % at 60 % front brakes, wheelbase 3378, centre of gravity at 750', () => {
    const vehicle = { frontBrakeShare: 0.6, wheelbaseMm: 3378, centreOfGravityMm: 750 };
    expect(antiDivePercent(rates.contactForwardPerRise, vehicle)).toBeCloseTo(56.405, 3);
  });
});

/** In front view, arms from (y, z) to (y, z). The tie rod is level with the lower arm and parallel to it. */
const planar = (lower: [number, number][], upper: [number, number][], wheelCentre: [number, number]) =>
  prepareMechanism(
    cornerOf({
      lowerArmFront: [150, ...lower[0]],
      lowerArmRear: [-150, ...lower[0]],
      lowerJoint: [0, ...lower[1]],
      upperArmFront: [150, ...upper[0]],
      upperArmRear: [-150, ...upper[0]],
      upperJoint: [0, ...upper[1]],
      tieRodInner: [-120, ...lower[0]],
      tieRodOuter: [-120, ...lower[1]],
      wheelCentre: [0, ...wheelCentre],
    }),
  );

describe('a plane linkage', () => {
  it('has its front-view instant centre where the lines of the arms meet', () => {
    // Lines through (300, 200)-(700, 200) and (400, 380)-(680, 400) meet at y = 400 - 180 * 280 / 20 = -2120.
    const mechanism = planar(
      [
        [300, 200],
        [700, 200],
      ],
      [
        [400, 380],
        [680, 400],
      ],
      [750, 310],
    );
    const rates = at(mechanism, solved(mechanism, 0, 0), { radiusMm: 310, planeMm: 0 });
    expect(rates.frontViewCentre?.acrossMm).toBeCloseTo(-2120, 5);
    expect(rates.frontViewCentre?.heightMm).toBeCloseTo(200, 6);
    // On the line from the contact centre (750, 0): 200 * 750 / (750 + 2120).
    expect(rates.rollCentreHeightMm).toBeCloseTo((200 * 750) / 2870, 7);
    // The arms turn about lines along the vehicle: no side view motion.
    expect(rates.sideViewCentre).toBeUndefined();
    expect(rates.contactForwardPerRise).toBeCloseTo(0, 10);
  });

  it('has no instant centre with parallel arms, and a roll centre on the ground if they are level', () => {
    const mechanism = planar(
      [
        [300, 200],
        [700, 200],
      ],
      [
        [240, 440],
        [640, 440],
      ],
      [780, 320],
    );
    const level = at(mechanism, solved(mechanism, 0, 0), { radiusMm: 320, planeMm: 0 });
    expect(level.frontViewCentre).toBeUndefined();
    expect(level.rollCentreHeightMm).toBeCloseTo(0, 8);
    // With the arms at 30 degrees, the contact moves inboard by the tangent: y tan 30 below ground.
    const raised = at(mechanism, solved(mechanism, 200, 0), { radiusMm: 320, planeMm: 0 });
    const halfTrack = 780 - 400 * (1 - Math.cos(Math.PI / 6));
    expect(raised.rollCentreHeightMm).toBeCloseTo(-halfTrack * Math.tan(Math.PI / 6), 7);
  });
});

describe('a damper on the lower arm', () => {
  it('has the motion ratio of the published example, d1 / d2 times the cosine of its lean', () => {
    // calculatormom.com: mounted at 15 of an arm of 20, leaning by 15 degrees: 0.7244.
    const level = cornerOf({
      lowerArmFront: [150, 300, 200],
      lowerArmRear: [-150, 300, 200],
      lowerJoint: [0, 700, 200],
      upperArmFront: [150, 300, 440],
      upperArmRear: [-150, 300, 440],
      upperJoint: [0, 700, 440],
      tieRodInner: [-120, 300, 200],
      tieRodOuter: [-120, 700, 200],
      wheelCentre: [0, 780, 320],
    });
    const lean = (15 * Math.PI) / 180;
    const armMount: [number, number, number] = [0, 600, 200];
    const chassisMount: [number, number, number] = [
      0,
      600 - 400 * Math.sin(lean),
      200 + 400 * Math.cos(lean),
    ];
    const mechanism = prepareMechanism({ ...level, damper: { chassisMount, armMount, on: 'lowerArm' } });
    const { motionRatio } = at(mechanism, solved(mechanism, 0, 0), { radiusMm: 320, planeMm: 0 });
    expect(motionRatio).toBeCloseTo((15 / 20) * Math.cos(lean), 9);
    expect(motionRatio).toBeCloseTo(0.7244, 4);
  });
});

describe('Ackermann', () => {
  it('gives the true outer angle of the published examples', () => {
    // calcady.com/trade/automotive/ackermann-steering: wheelbase 100, track 60, inner 20 degrees: 16.63 degrees.
    expect(trueOuterDeg({ innerDeg: 20, outerDeg: 20, pivotDistanceMm: 60 }, 100)).toBeCloseTo(16.63259, 5);
    // By hand: cot 30 + 1500 / 2500 = 2.33205.
    expect(trueOuterDeg({ innerDeg: 30, outerDeg: 30, pivotDistanceMm: 1500 }, 2500)).toBeCloseTo(23.21, 4);
  });

  it('gives the percentage of the definition at calcady.com', () => {
    const angles = { innerDeg: 18.62879, outerDeg: 17.55791, pivotDistanceMm: 1733.91 };
    expect(trueOuterDeg(angles, 3378)).toBeCloseTo(16.0332, 4);
    expect(ackermannPercent(angles, 3378)).toBeCloseTo(41.258, 3);
    // Parallel steering, and both wheels about one point.
    expect(ackermannPercent({ ...angles, outerDeg: angles.innerDeg }, 3378)).toBe(0);
    expect(ackermannPercent({ ...angles, outerDeg: trueOuterDeg(angles, 3378) }, 3378)).toBeCloseTo(100, 10);
  });
});
