/** Definitions of alignment where they can be told without a linkage: at ride height, and under known turns. */
import { describe, expect, it } from 'vitest';
import { type Rigid, rotationAbout } from '../../src/math/rigid.ts';
import { alignmentAt } from '../../src/mechanism/alignment.ts';
import { prepareMechanism } from '../../src/mechanism/mechanism.ts';
import type { SolvedPose } from '../../src/mechanism/pose.ts';
import { PARALLEL } from './planarCorners.ts';
import { solved } from './solved.ts';

const RADIANS = Math.PI / 180;
const CENTRE = PARALLEL.hardpoints.wheelCentre;

const mechanismWith = (camberDeg: number, toeDeg: number) =>
  prepareMechanism({ ...PARALLEL, camberDeg, toeDeg });

/** Ride height with the upright turned further, by itself. */
function turned(camberDeg: number, toeDeg: number, upright: Rigid) {
  const mechanism = mechanismWith(camberDeg, toeDeg);
  const still = solved(mechanism, 0, 0);
  const pose: SolvedPose = { ...still, carriers: { ...still.carriers, upright } };
  return alignmentAt(mechanism, pose, { radiusMm: 310, planeMm: 0 });
}

describe('alignment', () => {
  it.each([
    [0, 0],
    [-2.5, 0.2],
    [3, -1],
    [-15, 10],
  ])('at ride height shows the static camber %d and toe-in %d', (camberDeg, toeDeg) => {
    const mechanism = mechanismWith(camberDeg, toeDeg);
    const alignment = alignmentAt(mechanism, solved(mechanism, 0, 0), { radiusMm: 310, planeMm: 0 });
    expect(alignment.camberDeg).toBeCloseTo(camberDeg, 12);
    expect(alignment.toeDeg).toBeCloseTo(toeDeg, 12);
    expect(alignment.roadWheelAngleDeg).toBe(0);
    expect(alignment.wheelCentreMm).toEqual(CENTRE);
    expect(alignment.damperLengthMm).toBeUndefined();
    // The top leaning outboard by the camber, the foot of the wheel lies inboard by r sin(camber) cos(toe).
    const foot = CENTRE[1] - 310 * Math.sin(camberDeg * RADIANS) * Math.cos(toeDeg * RADIANS);
    expect(alignment.halfTrackMm).toBeCloseTo(foot, 10);
  });

  it('road-wheel angle is the change of heading, front edge to the left positive, all the way round', () => {
    for (const toeDeg of [-10, 0, 10])
      for (const turnDeg of [-179, -175, -91, -30, -0.5, 0.5, 30, 91, 175, 179]) {
        const alignment = turned(0, toeDeg, rotationAbout(CENTRE, [0, 0, 1], turnDeg * RADIANS));
        expect(alignment.roadWheelAngleDeg).toBeCloseTo(turnDeg, 9);
      }
  });

  it('leaning the upright outboard adds camber and takes kingpin inclination: their sum is kept', () => {
    const still = turned(-1, 0, rotationAbout(CENTRE, [1, 0, 0], 0));
    expect(still.kingpinInclinationDeg).toBeCloseTo(Math.atan2(60, 240) / RADIANS, 12);
    expect(still.casterDeg).toBeCloseTo(0, 12);
    for (const leanDeg of [-5, 2, 7]) {
      // About X (forward), a right-hand turn carries the top inboard.
      const leant = turned(-1, 0, rotationAbout(CENTRE, [1, 0, 0], -leanDeg * RADIANS));
      expect(leant.camberDeg).toBeCloseTo(-1 + leanDeg, 10);
      expect(leant.kingpinInclinationDeg).toBeCloseTo(still.kingpinInclinationDeg - leanDeg, 10);
    }
  });

  it('turning the upright about the spin axis, top to the rear, adds caster and trail, and no camber', () => {
    const still = turned(0, 0, rotationAbout(CENTRE, [0, 1, 0], 0));
    const turn = turned(0, 0, rotationAbout(CENTRE, [0, 1, 0], -6 * RADIANS));
    expect(turn.casterDeg).toBeCloseTo(6, 10);
    expect(turn.camberDeg).toBeCloseTo(0, 10);
    // The kingpin passes through the wheel centre seen from the side, 310 mm above the ground.
    expect(still.mechanicalTrailMm).toBeCloseTo(0, 10);
    expect(turn.mechanicalTrailMm).toBeCloseTo(310 * Math.tan(6 * RADIANS), 9);
  });

  it('scrub radius and trail belong to the wheel: steering the upright about its own vertical keeps them', () => {
    const camber = -3;
    const still = turned(camber, 0, rotationAbout(CENTRE, [0, 0, 1], 0));
    for (const turnDeg of [-40, 15, 35]) {
      const steered = turned(camber, 0, rotationAbout(CENTRE, [0, 0, 1], turnDeg * RADIANS));
      expect(steered.scrubRadiusMm).toBeCloseTo(still.scrubRadiusMm, 9);
      expect(steered.mechanicalTrailMm).toBeCloseTo(still.mechanicalTrailMm, 9);
    }
    // By hand: contact at y 780 + 310 sin 3, z 320 - 310 cos 3; kingpin from (700, 200) along (-60, 240).
    const y = 780 + 310 * Math.sin(3 * RADIANS);
    const z = 320 - 310 * Math.cos(3 * RADIANS);
    expect(still.scrubRadiusMm).toBeCloseTo(y - (700 - (60 * (z - 200)) / 240), 9);
  });

  it.each([0, -3, 5])('the contact centre follows the wheel along its axis, camber %d', (camberDeg) => {
    const mechanism = mechanismWith(camberDeg, 0);
    const pose = solved(mechanism, 0, 0);
    const at = (planeMm: number) => alignmentAt(mechanism, pose, { radiusMm: 310, planeMm });
    // Along the axis by 19.05: outboard by its cosine; it rises by its sine, over which the kingpin leans inboard 60 in 240.
    const outboard = 19.05 * Math.cos(camberDeg * RADIANS);
    const rise = -19.05 * Math.sin(camberDeg * RADIANS);
    expect(at(19.05).halfTrackMm - at(0).halfTrackMm).toBeCloseTo(outboard, 10);
    expect(at(19.05).scrubRadiusMm - at(0).scrubRadiusMm).toBeCloseTo(outboard + (60 / 240) * rise, 10);
    expect(at(19.05).mechanicalTrailMm).toBeCloseTo(at(0).mechanicalTrailMm, 10);
  });
});
