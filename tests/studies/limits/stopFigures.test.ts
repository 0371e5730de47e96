/** Figures of stops and distances to lock-out, from closed forms of plane linkages. */
import { describe, expect, it } from 'vitest';
import { lockOutDistances } from '../../../src/studies/limits/lockOuts.ts';
import { damperStopMm, lockCircleMm, travelAtDamperLength } from '../../../src/studies/limits/stopFigures.ts';
import { readDesign } from '../../design/readDesign.ts';
import { ARM_MM, box, boxCorner, parallelArms } from '../vary/boxCorner.ts';

const cornerWith = (suspension: Record<string, unknown>, changes: Record<string, unknown> = {}) =>
  readDesign(
    boxCorner([box('one', 'upright', [0, 640, 350], [40, 40, 30])], {
      suspension: { ...parallelArms, ...suspension },
      ...changes,
    }),
  ).corner;

/** Straight above the mount on the lower arm at ride height, which is 200 mm from the pivots. */
const DAMPER = { chassisMount: [0, 500, 700], armMount: [0, 500, 230], on: 'lowerArm' };
const lengthAt = (travel: number) => {
  const angle = Math.asin(travel / ARM_MM);
  return Math.hypot(200 * Math.cos(angle) - 200, 470 - 200 * Math.sin(angle));
};

describe('the damper', () => {
  it('has the travel of a typed length, and the length of a travel', () => {
    const corner = cornerWith({ damper: DAMPER });
    for (const travel of [-80, -50, 30, 60, 90]) {
      const found = travelAtDamperLength(corner, lengthAt(travel)) ?? expect.fail(`${travel}`);
      expect(found.straightMm).toBeCloseTo(travel, 5);
      expect(found.lowestMm).toBeCloseTo(travel, 5);
      expect(found.highestMm).toBeCloseTo(travel, 5);
    }
    expect(damperStopMm(corner, 45)).toBeCloseTo(lengthAt(45), 9);
    expect(damperStopMm(corner, -45)).toBeCloseTo(lengthAt(-45), 9);
    expect(travelAtDamperLength(corner, 100)).toBeUndefined();
    expect(damperStopMm(cornerWith({}), 45)).toBeUndefined();
  });

  it('on the upright stops at the longest length over the lock, and a strap at the shortest', () => {
    const damper = { chassisMount: [0, 420, 700], armMount: [40, 640, 300], on: 'upright' };
    const corner = cornerWith({ damper, steering: { rackOutboard: 40, rackInboard: 40 } });
    const [atStop, atStrap] = [damperStopMm(corner, 50) ?? 0, damperStopMm(corner, -40) ?? 0];
    expect(travelAtDamperLength(corner, atStop)?.highestMm).toBeCloseTo(50, 4);
    expect(travelAtDamperLength(corner, atStrap)?.lowestMm).toBeCloseTo(-40, 4);
  });
});

it('has no turning circle without a wheelbase', () => {
  expect(lockCircleMm(cornerWith({ steering: { rackOutboard: 40, rackInboard: 40 } }))).toBeUndefined();
});

describe('the distance to lock-out', () => {
  it('of arms is to where they go over centre, or in line with the kingpin', () => {
    const [bump, droop, ...locks] = lockOutDistances(cornerWith({ travel: { bump: 250, droop: 240 } }));
    // Level, vertical kingpin: the arms stand up at a rise of their length, either way.
    expect(bump).toMatchObject({ end: 'bump', isOpen: false });
    expect(bump.beyond).toBeCloseTo(ARM_MM - 250, 2);
    expect(droop.beyond).toBeCloseTo(ARM_MM - 240, 2);
    expect(bump.reason).not.toBe('');
    expect(locks).toEqual([]);
    const near = lockOutDistances(cornerWith({}))[0];
    expect([near.isOpen, near.beyond]).toEqual([true, 200]);
  });

  it('of the steering is to where tie rod and steering arm are in line', () => {
    // Steering arm of 120 mm ahead of the kingpin, tie rod of 360 mm across. At a travel t both span less in plan.
    const travels = [-50, 0, 60];
    const steering = { rackOutboard: 80, rackInboard: 60 };
    const locks = lockOutDistances(cornerWith({ steering })).slice(2);
    const inLine = (travel: number, sign: 1 | -1) => {
      const span = Math.sqrt(360 ** 2 - travel ** 2);
      return sign * (span - Math.sqrt((span - sign * 120) ** 2 - 120 ** 2));
    };
    expect(locks.map(({ end }) => end)).toEqual(['outboard', 'inboard']);
    expect(locks[0].reason).toMatch(/tie rod cannot follow/);
    expect(locks[0].beyond).toBeCloseTo(Math.min(...travels.map((travel) => inLine(travel, 1))) - 80, 3);
    expect(locks[1].reason).toMatch(/tie rod cannot reach/);
    expect(locks[1].beyond).toBeCloseTo(Math.min(...travels.map((travel) => inLine(travel, -1))) - 60, 3);
  });
});
