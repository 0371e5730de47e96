/**
 * A third method for the HMMWV corner: the npm package mujoco-js (Apache-2.0) with the corner as a tree of joints.
 * The lower arm is on a hinge, the upright on a ball joint at its end, the upper arm on a hinge. MuJoCo's own
 * kinematics gives the site positions. Newton's method on the joint coordinates closes the loops: upper joint
 * together, tie rod at its length, wheel centre at its height.
 */
import loadMujoco from 'mujoco-js';
import { describe, expect, it } from 'vitest';
import { applyPoint } from '../../src/math/rigid.ts';
import { distance, sub, type Vec3 } from '../../src/math/vec.ts';
import { prepareMechanism } from '../../src/mechanism/mechanism.ts';
import { solveLinear } from '../oracles/fixedLengths.ts';
import { HMMWV } from '../references/mechanismHardpoints.ts';
import { solved } from './solved.ts';

const h = HMMWV.hardpoints;
const text = (p: Vec3) => p.join(' ');
const ARM_MASS = '<geom size="1" mass="1"/>';

const MODEL = `<mujoco>
  <compiler angle="radian"/>
  <worldbody>
    <body pos="${text(h.lowerArmFront)}">
      <joint type="hinge" axis="${text(sub(h.lowerArmRear, h.lowerArmFront))}"/>${ARM_MASS}
      <site name="lowerJoint" pos="${text(sub(h.lowerJoint, h.lowerArmFront))}"/>
      <body pos="${text(sub(h.lowerJoint, h.lowerArmFront))}">
        <joint type="ball"/>${ARM_MASS}
        <site name="upperJoint" pos="${text(sub(h.upperJoint, h.lowerJoint))}"/>
        <site name="tieRodOuter" pos="${text(sub(h.tieRodOuter, h.lowerJoint))}"/>
        <site name="wheelCentre" pos="${text(sub(h.wheelCentre, h.lowerJoint))}"/>
      </body>
    </body>
    <body pos="${text(h.upperArmFront)}">
      <joint type="hinge" axis="${text(sub(h.upperArmRear, h.upperArmFront))}"/>${ARM_MASS}
      <site name="upperArmEnd" pos="${text(sub(h.upperJoint, h.upperArmFront))}"/>
    </body>
  </worldbody>
</mujoco>`;

const mujoco = await loadMujoco();
mujoco.FS.writeFile('/corner.xml', MODEL);
const model = mujoco.MjModel.loadFromXML('/corner.xml');
const data = new mujoco.MjData(model);

interface Sites {
  lowerJoint: Vec3;
  upperJoint: Vec3;
  tieRodOuter: Vec3;
  wheelCentre: Vec3;
  upperArmEnd: Vec3;
}

/** Sites for a lower hinge angle, three components of the ball joint's rotation, and an upper hinge angle. */
function sitesAt([lower, x, y, z, upper]: readonly number[]): Sites {
  const angle = Math.hypot(x, y, z);
  const s = angle === 0 ? 0.5 : Math.sin(angle / 2) / angle;
  data.qpos.set([lower, Math.cos(angle / 2), x * s, y * s, z * s, upper]);
  mujoco.mj_kinematics(model, data);
  const all = data.site_xpos as Float64Array;
  const site = (i: number): Vec3 => [all[3 * i], all[3 * i + 1], all[3 * i + 2]];
  return {
    lowerJoint: site(0),
    upperJoint: site(1),
    tieRodOuter: site(2),
    wheelCentre: site(3),
    upperArmEnd: site(4),
  };
}

function errorsAt(q: readonly number[], travelMm: number, tieRodInner: Vec3): number[] {
  const s = sitesAt(q);
  return [
    ...sub(s.upperJoint, s.upperArmEnd),
    distance(s.tieRodOuter, tieRodInner) - distance(h.tieRodOuter, h.tieRodInner),
    s.wheelCentre[2] - h.wheelCentre[2] - travelMm,
  ];
}

function closeLoops(travelMm: number, rackMm: number): Sites {
  let q = [0, 0, 0, 0, 0];
  const walk = 10;
  for (let step = 1; step <= walk; step++) {
    const travel = (travelMm * step) / walk;
    const inner: Vec3 = [h.tieRodInner[0], h.tieRodInner[1] + (rackMm * step) / walk, h.tieRodInner[2]];
    for (let i = 0; i < 12; i++) {
      const errors = errorsAt(q, travel, inner);
      if (Math.max(...errors.map(Math.abs)) < 1e-10) break;
      const d = 1e-5;
      const columns = q.map((_, k) => {
        const nudged = (by: number) =>
          errorsAt(
            q.map((c, j) => (j === k ? c + by : c)),
            travel,
            inner,
          );
        const [plus, minus] = [nudged(d), nudged(-d)];
        return plus.map((e, r) => (e - minus[r]) / (2 * d));
      });
      const rows = errors.map((_, r) => columns.map((column) => column[r]));
      const change = solveLinear(
        rows,
        errors.map((e) => -e),
      );
      if (change === undefined) throw new Error('singular');
      q = q.map((c, k) => c + change[k]);
    }
    const left = Math.max(...errorsAt(q, travel, inner).map(Math.abs));
    if (!(left < 1e-9)) throw new Error(`loops left open by ${left} mm at travel ${travel}`);
  }
  return sitesAt(q);
}

describe('HMMWV corner as a tree of joints', () => {
  const mechanism = prepareMechanism(HMMWV);
  it.each([
    [-100, 0],
    [-50, 0],
    [50, 0],
    [100, 0],
    [-100, 40],
    [-50, -40],
    [0, 40],
    [50, 20],
    [100, -40],
  ])('travel %d mm, rack %d mm', (travelMm, rackMm) => {
    const sites = closeLoops(travelMm, rackMm);
    const { carriers } = solved(mechanism, travelMm, -rackMm / 40);
    const error = (p: Vec3, site: Vec3) => distance(applyPoint(carriers.upright, p), site);
    expect(error(h.lowerJoint, sites.lowerJoint)).toBeLessThan(1e-8);
    expect(error(h.upperJoint, sites.upperJoint)).toBeLessThan(1e-8);
    expect(error(h.tieRodOuter, sites.tieRodOuter)).toBeLessThan(1e-8);
    expect(error(h.wheelCentre, sites.wheelCentre)).toBeLessThan(1e-8);
  });
});
