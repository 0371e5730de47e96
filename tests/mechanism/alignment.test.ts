/** Definitions of alignment that need no linkage: at ride height, and under known rotations. */
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

/** Alignment at ride height, with the upright alone at another transform. */
function alignmentWith(camberDeg: number, toeDeg: number, upright: Rigid) {
  const mechanism = mechanismWith(camberDeg, toeDeg);
  const unturned = solved(mechanism, 0, 0);
  const pose: SolvedPose = { ...unturned, carriers: { ...unturned.carriers, upright } };
  return alignmentAt(mechanism, pose, { radiusMm: 310, planeMm: 0 });
}

describe('alignment', () => {
  it.each([
    [0, 0],
    [-2.5, 0.2],
    [3, -1],
    [-15, 10],
  ])('equals the static camber %d and toe-in %d at ride height', (camberDeg, toeDeg) => {
    const mechanism = mechanismWith(camberDeg, toeDeg);
    const alignment = alignmentAt(mechanism, solved(mechanism, 0, 0), { radiusMm: 310, planeMm: 0 });
    expect(alignment.camberDeg).toBeCloseTo(camberDeg, 12);
    expect(alignment.toeDeg).toBeCloseTo(toeDeg, 12);
    expect(alignment.roadWheelAngleDeg).toBe(0);
    expect(alignment.wheelCentreMm).toEqual(CENTRE);
    expect(alignment.damperLengthMm).toBeUndefined();
    // If the top leans outboard by the camber, the foot of the wheel is inboard by r sin(camber) cos(toe).
    const foot = CENTRE[1] - 310 * Math.sin(camberDeg * RADIANS) * Math.cos(toeDeg * RADIANS);
    expect(alignment.halfTrackMm).toBeCloseTo(foot, 10);
  });

  it('gives the change of heading as road-wheel angle, front edge to the left positive, over a full turn', () => {
    for (const toeDeg of [-10, 0, 10])
      for (const turnDeg of [-179, -175, -91, -30, -0.5, 0.5, 30, 91, 175, 179]) {
        const alignment = alignmentWith(0, toeDeg, rotationAbout(CENTRE, [0, 0, 1], turnDeg * RADIANS));
        expect(alignment.roadWheelAngleDeg).toBeCloseTo(turnDeg, 9);
      }
  });

  it('keeps the sum of camber and kingpin inclination while the upright leans outboard', () => {
    const unturned = alignmentWith(-1, 0, rotationAbout(CENTRE, [1, 0, 0], 0));
    expect(unturned.kingpinInclinationDeg).toBeCloseTo(Math.atan2(60, 240) / RADIANS, 12);
    expect(unturned.casterDeg).toBeCloseTo(0, 12);
    for (const leanDeg of [-5, 2, 7]) {
      // A right-hand rotation about X (forward) moves the top inboard.
      const leant = alignmentWith(-1, 0, rotationAbout(CENTRE, [1, 0, 0], -leanDeg * RADIANS));
      expect(leant.camberDeg).toBeCloseTo(-1 + leanDeg, 10);
      expect(leant.kingpinInclinationDeg).toBeCloseTo(unturned.kingpinInclinationDeg - leanDeg, 10);
    }
  });

  it('gains caster and trail but no camber while the upright turns about the spin axis, top to the rear', () => {
    const unturned = alignmentWith(0, 0, rotationAbout(CENTRE, [0, 1, 0], 0));
    const turn = alignmentWith(0, 0, rotationAbout(CENTRE, [0, 1, 0], -6 * RADIANS));
    expect(turn.casterDeg).toBeCloseTo(6, 10);
    expect(turn.camberDeg).toBeCloseTo(0, 10);
    // In side view the kingpin passes through the wheel centre, 310 mm above the ground.
    expect(unturned.mechanicalTrailMm).toBeCloseTo(0, 10);
    expect(turn.mechanicalTrailMm).toBeCloseTo(310 * Math.tan(6 * RADIANS), 9);
  });

  it('keeps scrub radius and trail while the upright turns about the vertical', () => {
    const camber = -3;
    const unturned = alignmentWith(camber, 0, rotationAbout(CENTRE, [0, 0, 1], 0));
    for (const turnDeg of [-40, 15, 35]) {
      const steered = alignmentWith(camber, 0, rotationAbout(CENTRE, [0, 0, 1], turnDeg * RADIANS));
      expect(steered.scrubRadiusMm).toBeCloseTo(unturned.scrubRadiusMm, 9);
      expect(steered.mechanicalTrailMm).toBeCloseTo(unturned.mechanicalTrailMm, 9);
    }
    // By hand: contact at y 780 + 310 sin 3, z 320 - 310 cos 3; kingpin from (700, 200) along (-60, 240).
    const y = 780 + 310 * Math.sin(3 * RADIANS);
    const z = 320 - 310 * Math.cos(3 * RADIANS);
    expect(unturned.scrubRadiusMm).toBeCloseTo(y - (700 - (60 * (z - 200)) / 240), 9);
  });

  it.each([0, -3, 5])(
    'moves the contact centre with the tyre plane along the axis, camber %d',
    (camberDeg) => {
      const mechanism = mechanismWith(camberDeg, 0);
      const pose = solved(mechanism, 0, 0);
      const at = (planeMm: number) => alignmentAt(mechanism, pose, { radiusMm: 310, planeMm });
      // By hand: a move of 19.05 along the axis goes outboard by its cosine and up by its sine; per 240 of height the
      // kingpin leans inboard by 60.
      const outboard = 19.05 * Math.cos(camberDeg * RADIANS);
      const rise = -19.05 * Math.sin(camberDeg * RADIANS);
      expect(at(19.05).halfTrackMm - at(0).halfTrackMm).toBeCloseTo(outboard, 10);
      expect(at(19.05).scrubRadiusMm - at(0).scrubRadiusMm).toBeCloseTo(outboard + (60 / 240) * rise, 10);
      expect(at(19.05).mechanicalTrailMm).toBeCloseTo(at(0).mechanicalTrailMm, 10);
    },
  );
});
