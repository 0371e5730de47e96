/** Poses of random corners against the slow, independent method of tests/oracles/fixedLengths.ts. */

import { describe, expect, it } from 'vitest';
import type { Carrier } from '../../src/design/schema.ts';
import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import { applyDirection, applyPoint, type Rigid } from '../../src/math/rigid.ts';
import { distance, dot, normalize, sub, type Vec3 } from '../../src/math/vec.ts';
import { prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import { poseByFixedLengths } from '../oracles/fixedLengths.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';

const CARRIERS = Object.keys(doubleWishboneRack.carriers);

const SEED = 20_240;
const CORNERS = 60;
const POSES = 6;

/** Largest entry of R^T R - I. */
function notRigid(t: Rigid): number {
  const [x, y, z] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ].map((axis) => applyDirection(t, axis as unknown as Vec3));
  const off = [dot(x, x) - 1, dot(y, y) - 1, dot(z, z) - 1, dot(x, y), dot(y, z), dot(z, x)];
  const handed =
    t[0] * (t[5] * t[10] - t[6] * t[9]) -
    t[1] * (t[4] * t[10] - t[6] * t[8]) +
    t[2] * (t[4] * t[9] - t[5] * t[8]);
  return Math.max(...off.map(Math.abs), Math.abs(handed - 1));
}

describe('random corners', () => {
  it('have the poses of five fixed lengths and a rigid upright', () => {
    let reached = 0;
    let worstMm = 0;
    for (let n = 0; n < CORNERS; n++) {
      const seed = SEED + n;
      const suspension = randomCorner(seed);
      const { hardpoints } = suspension;
      const mechanism = prepareMechanism(suspension);
      const random = mulberry32(seed * 7 + 1);
      for (let k = 0; k < POSES; k++) {
        const travelMm = between(random, -90, 90);
        const steer = between(random, -1, 1);
        const where = `seed ${seed}, travel ${travelMm}, steer ${steer}`;
        const pose = solvePose(mechanism, travelMm, steer);
        if (pose.kind !== 'solved') continue;
        reached++;
        expect(pose.residualMm, where).toBeLessThan(1e-9);
        const { rack, upright, lowerArm, upperArm, tieRod } = pose.carriers;
        const slow = poseByFixedLengths(suspension, travelMm, [rack[3], rack[7], rack[11]]);
        expect(slow.errorMm, where).toBeLessThan(1e-9);
        const errors = [
          distance(applyPoint(lowerArm, hardpoints.lowerJoint), slow.lowerJoint),
          distance(applyPoint(upperArm, hardpoints.upperJoint), slow.upperJoint),
          distance(applyPoint(tieRod, hardpoints.tieRodOuter), slow.tieRodOuter),
          distance(applyPoint(upright, hardpoints.tieRodOuter), slow.tieRodOuter),
          distance(applyPoint(upright, hardpoints.wheelCentre), slow.wheelCentre),
        ];
        worstMm = Math.max(worstMm, ...errors);
        expect(Math.max(...errors), where).toBeLessThan(1e-8);
        for (const [r, row] of slow.turn.entries())
          for (const [c, entry] of row.entries()) expect(upright[4 * r + c], where).toBeCloseTo(entry, 10);
      }
    }
    expect(reached).toBeGreaterThan(0.95 * CORNERS * POSES);
    expect(worstMm).toBeLessThan(1e-8);
  });

  it('move every part rigidly within its constraints, and move nothing at ride height', () => {
    for (let n = 0; n < CORNERS; n++) {
      const seed = SEED + n;
      const suspension = randomCorner(seed);
      const { hardpoints: h, damper } = suspension;
      const random = mulberry32(seed * 11 + 3);
      const bodyEnd = random() < 0.5 ? 'chassis' : 'arm';
      const mechanism = prepareMechanism(suspension, { damperBodyEnd: bodyEnd });
      const atRest = solvePose(mechanism, 0, 0);
      if (atRest.kind !== 'solved' || damper === undefined) return expect.fail(`seed ${seed}`);
      for (const carrier of CARRIERS)
        for (const [i, entry] of atRest.carriers[carrier].entries())
          expect(entry, `${carrier}, seed ${seed}`).toBe(i % 5 === 0 ? 1 : 0);
      // For a pose a nanometre away, no point moves by more than twenty.
      const beside = solvePose(mechanism, 1e-6, 1e-8);
      if (beside.kind !== 'solved') return expect.fail(`seed ${seed}`);
      for (const carrier of CARRIERS)
        for (const corner of Object.values(h))
          expect(distance(applyPoint(beside.carriers[carrier], corner), corner), `seed ${seed}`).toBeLessThan(
            2e-5,
          );

      const pose = solvePose(mechanism, between(random, -80, 80), between(random, -1, 1));
      if (pose.kind !== 'solved') continue;
      const { carriers } = pose;
      for (const carrier of CARRIERS)
        expect(notRigid(carriers[carrier]), `${carrier}, seed ${seed}`).toBeLessThan(1e-12);
      const expectAt = (carrier: Carrier, point: Vec3, at: Vec3) =>
        expect(distance(applyPoint(carriers[carrier], point), at), `${carrier}, seed ${seed}`).toBeLessThan(
          1e-9,
        );
      expectAt('lowerArm', h.lowerArmFront, h.lowerArmFront);
      expectAt('lowerArm', h.lowerArmRear, h.lowerArmRear);
      expectAt('upperArm', h.upperArmFront, h.upperArmFront);
      expectAt('upperArm', h.upperArmRear, h.upperArmRear);
      const rackSlide = sub(applyPoint(carriers.rack, h.tieRodInner), h.tieRodInner);
      expect(
        Math.abs(dot(normalize(rackSlide), normalize(suspension.steering.rackDirection as Vec3))),
      ).toBeCloseTo(1, 12);
      expectAt('tieRod', h.tieRodInner, applyPoint(carriers.rack, h.tieRodInner));
      expectAt('wheel', h.wheelCentre, applyPoint(carriers.upright, h.wheelCentre));
      const armMount = applyPoint(carriers[damper.on], damper.armMount);
      expectAt(bodyEnd === 'chassis' ? 'damperBody' : 'damperRod', damper.chassisMount, damper.chassisMount);
      expectAt(bodyEnd === 'chassis' ? 'damperRod' : 'damperBody', damper.armMount, armMount);
      // Body and rod stay on one line: each keeps its direction between the mounts.
      const line = normalize(sub(armMount, damper.chassisMount));
      const line0 = normalize(sub(damper.armMount, damper.chassisMount));
      for (const carrier of ['damperBody', 'damperRod'] as const)
        expect(distance(applyDirection(carriers[carrier], line0), line), `seed ${seed}`).toBeLessThan(1e-12);
    }
  });

  it('reach by travelling first a steer that is out of reach at ride height', () => {
    let reached = 0;
    for (let seed = SEED; seed < SEED + CORNERS; seed++) {
      const suspension = randomCorner(seed);
      const mechanism = prepareMechanism(suspension);
      const atRideHeight = solvePose(mechanism, 0, 8);
      if (atRideHeight.kind === 'solved') continue;
      const steer = atRideHeight.nearest.steer * 1.01;
      expect(solvePose(mechanism, 0, steer).kind, `seed ${seed}`).toBe('unreachable');
      for (const travelMm of [-60, 60]) {
        const pose = solvePose(mechanism, travelMm, steer);
        if (pose.kind !== 'solved') continue;
        reached++;
        const { rack, upright } = pose.carriers;
        const shift = [rack[3], rack[7], rack[11]] as const;
        const slow = poseByFixedLengths(suspension, travelMm, shift, { walk: 60, first: 'travel' });
        const where = `seed ${seed}, travel ${travelMm}, steer ${steer}`;
        expect(slow.errorMm, where).toBeLessThan(1e-9);
        const { tieRodOuter } = suspension.hardpoints;
        expect(distance(applyPoint(upright, tieRodOuter), slow.tieRodOuter), where).toBeLessThan(1e-6);
      }
    }
    expect(reached).toBeGreaterThan(20);
  });
});
