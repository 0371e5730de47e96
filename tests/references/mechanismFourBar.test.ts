/**
 * A double wishbone with parallel pivot lines is a plane four-bar linkage. Checked against Norton, Design of
 * Machinery, Example 4-1 (from memory): ground 100, crank 40, coupler 120, rocker 80, crank at 40 degrees; open and
 * crossed. Digits beyond Norton's two are recomputed from his equations (Freudenstein's, by half angles).
 */
import { describe, expect, it } from 'vitest';
import type { PosedLinkage } from '../../src/layouts/doubleWishboneRack/closedForm.ts';
import type { NumberKind } from '../../src/math/numbers.ts';
import { alignmentAt } from '../../src/mechanism/alignment.ts';
import { assemble } from '../../src/mechanism/assemble.ts';
import { prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import { cornerOf } from '../mechanism/planarCorners.ts';

const [GROUND, CRANK, COUPLER, ROCKER] = [100, 40, 120, 80];
const DEGREES = 180 / Math.PI;

/** Rocker angle at a crank angle, from Norton's equation 4.10. */
function rockerRad(crankRad: number, branch: 'open' | 'crossed'): number {
  const k1 = GROUND / CRANK;
  const k2 = GROUND / ROCKER;
  const k3 = (CRANK ** 2 - COUPLER ** 2 + ROCKER ** 2 + GROUND ** 2) / (2 * CRANK * ROCKER);
  const cos = Math.cos(crankRad);
  const a = cos - k1 - k2 * cos + k3;
  const b = -2 * Math.sin(crankRad);
  const c = k1 - (k2 + 1) * cos + k3;
  const root = Math.sqrt(b * b - 4 * a * c);
  return 2 * Math.atan((-b + (branch === 'open' ? -root : root)) / (2 * a));
}

/** The linkage as a corner at a crank angle: the plane's x and y are Y and Z, and the crank is the lower arm. */
function corner(crankRad: number, branch: 'open' | 'crossed') {
  const rocker = rockerRad(crankRad, branch);
  const lowerJoint = [CRANK * Math.cos(crankRad), CRANK * Math.sin(crankRad)];
  const upperJoint = [GROUND + ROCKER * Math.cos(rocker), ROCKER * Math.sin(rocker)];
  const middle = [(lowerJoint[0] + upperJoint[0]) / 2, (lowerJoint[1] + upperJoint[1]) / 2];
  return prepareMechanism(
    cornerOf({
      lowerArmFront: [50, 0, 0],
      lowerArmRear: [-50, 0, 0],
      lowerJoint: [0, lowerJoint[0], lowerJoint[1]],
      upperArmFront: [50, GROUND, 0],
      upperArmRear: [-50, GROUND, 0],
      upperJoint: [0, upperJoint[0], upperJoint[1]],
      tieRodInner: [-40, middle[0] - 200, middle[1] + 150],
      tieRodOuter: [-40, middle[0], middle[1]],
      wheelCentre: [0, lowerJoint[0], lowerJoint[1]],
    }),
  );
}

describe.each([
  { branch: 'open' as const, rockerDeg: 57.32488, couplerDeg: 20.29788, printed: [57.33, 20.3] },
  { branch: 'crossed' as const, rockerDeg: -98.00496, couplerDeg: -60.97797, printed: [-98.01, -60.98] },
])('$branch four-bar', ({ branch, rockerDeg, couplerDeg, printed }) => {
  it.each([20, 30, 39.9, 50])('drawn with the crank at %d degrees and turned to 40', (startDeg) => {
    // The arm's axis points to the rear, opposite to the plane's normal.
    const turn = (startDeg - 40) / DEGREES;
    const mechanism = corner(startDeg / DEGREES, branch);
    const assembly = assemble(mechanism, turn, 0);
    if (assembly === undefined) return expect.fail('does not assemble');
    const { lowerJoint, upperJoint } = assembly.posed as PosedLinkage<NumberKind>;
    const rocker = Math.atan2(upperJoint[2], upperJoint[1] - GROUND) * DEGREES;
    const coupler = Math.atan2(upperJoint[2] - lowerJoint[2], upperJoint[1] - lowerJoint[1]) * DEGREES;
    expect(rocker).toBeCloseTo(rockerDeg, 5);
    expect(coupler).toBeCloseTo(couplerDeg, 5);
    expect(Math.abs(rocker - printed[0])).toBeLessThan(0.01);
    expect(Math.abs(coupler - printed[1])).toBeLessThan(0.01);
    if (branch === 'open') {
      // Position of the coupler's end from npm planegcs, a geometric constraint solver.
      expect(upperJoint[1]).toBeCloseTo(143.18998821, 8);
      expect(upperJoint[2]).toBeCloseTo(67.33962369, 8);
    }
    // The wheel centre is at the crank's end, so the travel that gives 40 degrees is known.
    const pose = solvePose(mechanism, assembly.riseMm, 0);
    if (pose.kind !== 'solved') return expect.fail(pose.reason);
    expect(alignmentAt(mechanism, pose, { radiusMm: 300, planeMm: 0 }).armAngleDeg).toBeCloseTo(
      startDeg - 40,
      8,
    );
  });
});
