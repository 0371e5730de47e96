/** Ends of the mechanism's range, from closed forms of plane linkages. No outside source is needed. */
import { describe, expect, it } from 'vitest';
import { alignmentAt } from '../../src/mechanism/alignment.ts';
import { assemble } from '../../src/mechanism/assemble.ts';
import { type Mechanism, prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import type { UnreachablePose } from '../../src/mechanism/pose.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { PARALLEL, SHORT_UPPER_ARM, UPRIGHT_KINGPIN } from './planarCorners.ts';
import { solved } from './solved.ts';

const RADIANS = Math.PI / 180;

function unreachable(mechanism: Mechanism, travelMm: number, steer: number): UnreachablePose {
  const pose = solvePose(mechanism, travelMm, steer);
  if (pose.kind === 'unreachable') return pose;
  return expect.fail(`travel ${travelMm} mm, steer ${steer} was reached`);
}

describe('parallel arms of 400 mm', () => {
  const mechanism = prepareMechanism(PARALLEL);

  it('translate the upright: rise 400 sin a, no rotation', () => {
    for (const angleDeg of [-70, -45, -10, -0.001, 0.5, 20, 60, 85]) {
      const rise = 400 * Math.sin(angleDeg * RADIANS);
      const { carriers } = solved(mechanism, rise, 0);
      const expected = [1, 0, 0, 0, 0, 1, 0, 400 * (Math.cos(angleDeg * RADIANS) - 1), 0, 0, 1, rise];
      for (const [i, entry] of carriers.upright.entries()) expect(entry).toBeCloseTo(expected[i], 8);
      expect(
        alignmentAt(mechanism, solved(mechanism, rise, 0), { radiusMm: 300, planeMm: 0 }).armAngleDeg,
      ).toBeCloseTo(-angleDeg, 8);
    }
  });

  it('go over centre at 400 mm of bump', () => {
    const { reason, nearest } = unreachable(mechanism, 401, 0);
    expect(reason).toMatch(/over centre/);
    expect(nearest.steer).toBe(0);
    expect(nearest.travelMm).toBeCloseTo(400, 9);
    expect(nearest.travelMm).toBeLessThanOrEqual(400);
  });

  it('come in line with the kingpin in droop, where the range ends', () => {
    // Arms parallel to the kingpin (0, 60, -240): the sine of their angle is 240 / hypot(60, 240).
    const end = (-400 * 240) / Math.hypot(60, 240);
    const { reason, nearest } = unreachable(mechanism, -390, 0);
    expect(reason).toMatch(/upper arm .* in line/);
    // Both lengths come in line at once, so the end is accurate only to the square root of rounding, and on the near
    // side.
    expect(nearest.travelMm).toBeGreaterThanOrEqual(end - 1e-9);
    expect(nearest.travelMm).toBeLessThan(end + 0.01);
    // Below it, arms of these lengths could go on to -400 mm, upright or crossed.
    for (const travelMm of [-388.1, -395, -399, -400])
      expect(unreachable(mechanism, travelMm, 0).nearest.travelMm).toBeCloseTo(end, 2);
  });
});

describe('a short upper arm', () => {
  it('is stretched out in droop when the lower joint is both lengths away from its pivot', () => {
    const mechanism = prepareMechanism(SHORT_UPPER_ARM);
    const kingpin = Math.hypot(30, 240);
    const pivots = Math.hypot(120, 240);
    const reach = 250 + kingpin;
    const atLowerPivot = Math.acos((400 ** 2 + pivots ** 2 - reach ** 2) / (2 * 400 * pivots));
    const lowerArm = Math.atan2(240, 120) - atLowerPivot;
    const lowerJointZ = 200 + 400 * Math.sin(lowerArm);
    // The wheel centre is on the line from the upper pivot (z 440) to the lower joint, half a kingpin before its end.
    const end = 440 + ((lowerJointZ - 440) * (250 + kingpin / 2)) / reach - 320;
    const { reason, nearest } = unreachable(mechanism, end - 20, 0);
    expect(reason).toMatch(/upper arm cannot reach.*stretched/);
    expect(nearest.travelMm).toBeCloseTo(end, 4);
    expect(solved(mechanism, end + 1e-3, 0).residualMm).toBeLessThan(1e-9);
    unreachable(mechanism, end - 1e-3, 0);
  });
});

describe('steering about an upright kingpin', () => {
  const rack = 200;
  const mechanism = prepareMechanism({
    ...UPRIGHT_KINGPIN,
    steering: { rackOutboard: rack, rackInboard: rack, rackDirection: [0, 1, 0] },
  });

  it('turns the wheel by the law of cosines', () => {
    for (const steer of [-0.7, -0.5, -0.1, 0, 0.2, 0.4, 0.5]) {
      const inner = [-120, 330 - steer * rack - 700];
      const reach = Math.hypot(inner[0], inner[1]);
      const corner = Math.acos((reach ** 2 + 120 ** 2 - 370 ** 2) / (2 * reach * 120));
      // Straight ahead, the steering arm points to the rear, at pi.
      const arm = Math.atan2(inner[1], inner[0]) - corner + 2 * Math.PI;
      const { roadWheelAngleDeg } = alignmentAt(mechanism, solved(mechanism, 0, steer), {
        radiusMm: 300,
        planeMm: 0,
      });
      expect(roadWheelAngleDeg).toBeCloseTo((arm - Math.PI) / RADIANS, 9);
    }
  });

  it('ends where the tie rod is stretched out in line with the steering arm', () => {
    const end = (Math.sqrt((370 + 120) ** 2 - 120 ** 2) - 370) / rack;
    for (const steer of [0.9, 1]) {
      const { reason, nearest } = unreachable(mechanism, 0, steer);
      expect(reason).toMatch(/tie rod cannot reach/);
      expect(nearest.travelMm).toBe(0);
      expect(Math.abs(nearest.steer - end) * rack).toBeLessThan(1.1e-4);
    }
    solved(mechanism, 0, end - 1e-6);
    unreachable(mechanism, 0, end + 1e-6);
  });

  it('ends where the tie rod is folded in line with the steering arm', () => {
    const end = -(370 - Math.sqrt((370 - 120) ** 2 - 120 ** 2)) / rack;
    const { reason, nearest } = unreachable(mechanism, 0, -1);
    expect(reason).toMatch(/tie rod cannot follow/);
    expect(Math.abs(nearest.steer - end) * rack).toBeLessThan(1.1e-4);
  });

  /** The inner end moves past the kingpin, `aside` mm behind it. The folded tie rod spans 370 - 120 mm there. */
  const slidingPast = (aside: number) =>
    prepareMechanism({
      ...UPRIGHT_KINGPIN,
      hardpoints: {
        ...UPRIGHT_KINGPIN.hardpoints,
        tieRodInner: [-aside, 700 - Math.sqrt(370 ** 2 - (aside - 120) ** 2), 260],
      },
      steering: { rackOutboard: 200, rackInboard: 600, rackDirection: [0, 1, 0] },
    });

  it('stops at a gap of 1.4 mm that is far narrower than a stride', () => {
    const aside = 249.999;
    const mechanism = slidingPast(aside);
    const gapMm = Math.sqrt(370 ** 2 - (aside - 120) ** 2) - Math.sqrt(250 ** 2 - aside ** 2);
    for (const steer of [-0.6, -0.7, -0.8, -0.9, -1]) {
      expect(assemble(mechanism, 0, -steer * 600)).toBeDefined();
      const { reason, nearest } = unreachable(mechanism, 0, steer);
      expect(reason).toMatch(/tie rod cannot follow/);
      expect(Math.abs(nearest.steer * 600 + gapMm)).toBeLessThan(1.1e-4);
    }
  });

  it('continues if it misses the gap by a thousandth of a millimetre', () => {
    const mechanism = slidingPast(250.001);
    for (const steer of [-0.5, -0.6, -0.8, -1])
      expect(solved(mechanism, 0, steer).residualMm).toBeLessThan(1e-9);
  });

  it('does not jump to where the rod reaches again, past the kingpin', () => {
    const long = prepareMechanism({
      ...UPRIGHT_KINGPIN,
      steering: { rackOutboard: 200, rackInboard: 700, rackDirection: [0, 1, 0] },
    });
    expect(assemble(long, 0, 700)).toBeDefined();
    expect(unreachable(long, 0, -1).nearest.steer).toBeGreaterThan(-0.25);
  });
});

describe('any corner', () => {
  it('reports a nearest pose that it reaches with all lengths kept', () => {
    let found = 0;
    for (let seed = 500; seed < 560; seed++) {
      const random = mulberry32(seed);
      const mechanism = prepareMechanism(randomCorner(seed));
      for (let k = 0; k < 4; k++) {
        const travelMm = between(random, -700, 700);
        const steer = between(random, -6, 6);
        const pose = solvePose(mechanism, travelMm, steer);
        if (pose.kind === 'solved') continue;
        found++;
        const where = `seed ${seed}, travel ${travelMm}, steer ${steer}, ${pose.reason}`;
        expect(Math.abs(pose.nearest.steer), where).toBeLessThanOrEqual(Math.abs(steer));
        const there = solved(mechanism, pose.nearest.travelMm, pose.nearest.steer, where);
        // Near the in-line position, rounding of the angle has a thousandfold effect.
        expect(there.residualMm, where).toBeLessThan(2e-9);
      }
    }
    expect(found).toBeGreaterThan(100);
  });

  it('rejects a travel or steer that is not finite', () => {
    const mechanism = prepareMechanism(PARALLEL);
    expect(() => solvePose(mechanism, Number.NaN, 0)).toThrow(RangeError);
    expect(() => solvePose(mechanism, 0, Number.POSITIVE_INFINITY)).toThrow(RangeError);
  });
});
