/**
 * Solved poses of the Project Chrono hardpoints (see mechanismHardpoints.ts). The values are not from a published
 * table. They were computed independently of this program by three methods that agree to every digit given: closed
 * form in Python; five fixed lengths and a rigid upright by Levenberg-Marquardt (SciPy); joints and sites in MuJoCo.
 * Checked to half a unit of the last digit.
 */
import { describe, expect, it } from 'vitest';
import { applyPoint } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { alignmentAt } from '../../src/mechanism/alignment.ts';
import { prepareMechanism } from '../../src/mechanism/mechanism.ts';
import { solved } from '../mechanism/solved.ts';
import { HMMWV, HMMWV_TYRE_RADIUS_MM, SEDAN, SEDAN_TYRE_RADIUS_MM } from './mechanismHardpoints.ts';

type Row = readonly number[];
/** rise, camber, toe-in, caster, inclination, scrub, trail, wheel centre x, y, contact y, damper, lower-arm angle */
const HMMWV_ROWS: readonly Row[] = [
  [
    -100, 0.96325, 1.17548, -0.02416, 11.06041, 43.0174, -2.7757, -32.3403, 876.0806, 868.2315, 419.5535,
    12.10054,
  ],
  [-75, 1.03228, 0.72243, 0.64287, 10.982, 43.0064, 3.4231, -34.5435, 887.5889, 879.1762, 407.5097, 8.90197],
  [-50, 0.86229, 0.4043, 1.35991, 11.15247, 43.0123, 9.7872, -36.4905, 896.885, 889.8572, 395.751, 5.83844],
  [-25, 0.50797, 0.17242, 2.12104, 11.51451, 43.0266, 16.3586, -38.29, 904.2878, 900.1475, 384.196, 2.87832],
  [0, 0, 0, 2.92247, 12.03599, 43.045, 23.1441, -40, 910, 910, 372.7922, 0],
  [
    25, -0.64374, -0.12956, 3.76185, 12.69814, 43.0658, 30.1382, -41.6548, 914.1586, 919.4054, 361.5032,
    -2.81245,
  ],
  [
    50, -1.41295, -0.22761, 4.63789, 13.49011, 43.0885, 37.3311, -43.2768, 916.8589, 928.3741, 350.3025,
    -5.57146,
  ],
  [
    75, -2.30228, -0.30263, 5.55025, 14.40631, 43.1143, 44.7126, -44.8823, 918.1668, 936.9267, 339.1702,
    -8.28715,
  ],
  [
    100, -3.30989, -0.36155, 6.49945, 15.44488, 43.1452, 52.2736, -46.4839, 918.127, 945.0894, 328.0909,
    -10.96806,
  ],
];
const SEDAN_ROWS: readonly Row[] = [
  [-50, 0.79969, 2.27859, 5.45438, 8.99894, 5.5726, 10.3556, 0.0478, 788.6049, 784.0503, 537.4038, 8.96243],
  [0, 0, 0, 5.37671, 10.00798, 5.5765, 11.9059, 0, 797.9, 797.9, 511.4685, 0],
  [50, -1.12886, -1.37355, 5.525, 11.27446, 5.581, 14.1649, -0.8159, 798.1098, 804.5423, 485.4188, -8.71891],
];

describe.each([
  { name: 'HMMWV front', suspension: HMMWV, radius: HMMWV_TYRE_RADIUS_MM, rows: HMMWV_ROWS },
  { name: 'sedan front', suspension: SEDAN, radius: SEDAN_TYRE_RADIUS_MM, rows: SEDAN_ROWS },
])('$name, rack fixed', ({ suspension, radius, rows }) => {
  const mechanism = prepareMechanism(suspension);
  it.each(rows.map((row) => ({ row })))('rise of $row.0 mm', ({ row }) => {
    const [rise, camber, toe, caster, inclination, scrub, trail, x, y, contactY, damper, arm] = row;
    const pose = solved(mechanism, rise, 0);
    const alignment = alignmentAt(mechanism, pose, { radiusMm: radius, planeMm: 0 });
    expect(alignment.camberDeg).toBeCloseTo(camber, 5);
    expect(alignment.toeDeg).toBeCloseTo(toe, 5);
    expect(alignment.roadWheelAngleDeg).toBeCloseTo(-toe, 5);
    expect(alignment.casterDeg).toBeCloseTo(caster, 5);
    expect(alignment.kingpinInclinationDeg).toBeCloseTo(inclination, 5);
    expect(alignment.scrubRadiusMm).toBeCloseTo(scrub, 4);
    expect(alignment.mechanicalTrailMm).toBeCloseTo(trail, 4);
    expect(alignment.wheelCentreMm[0]).toBeCloseTo(x, 4);
    expect(alignment.wheelCentreMm[1]).toBeCloseTo(y, 4);
    expect(alignment.wheelCentreMm[2] - suspension.hardpoints.wheelCentre[2]).toBeCloseTo(rise, 9);
    expect(alignment.halfTrackMm).toBeCloseTo(contactY, 4);
    expect(alignment.damperLengthMm).toBeCloseTo(damper, 4);
    expect(alignment.armAngleDeg).toBeCloseTo(arm, 5);
  });
});

function close(p: Vec3, q: Vec3, digits: number) {
  for (const [i, c] of p.entries()) expect(c).toBeCloseTo(q[i], digits);
}

describe('HMMWV front', () => {
  const mechanism = prepareMechanism(HMMWV);
  const { hardpoints } = HMMWV;

  it.each<{ rise: number; lower: Vec3; upper: Vec3; outer: Vec3 }>([
    {
      rise: 50,
      lower: [-36, 796.18871, -70.84072],
      upper: [-62.80951, 716.90859, 259.63608],
      outer: [-179.16304, 827.20098, 27.66098],
    },
    {
      rise: -50,
      lower: [-36, 772.5067, -166.21527],
      upper: [-43.938, 706.58577, 168.16538],
      outer: [-172.77206, 809.06349, -60.77806],
    },
  ])('joints at a rise of $rise mm', ({ rise, lower, upper, outer }) => {
    const { lowerArm, upperArm, tieRod } = solved(mechanism, rise, 0).carriers;
    close(applyPoint(lowerArm, hardpoints.lowerJoint), lower, 5);
    close(applyPoint(upperArm, hardpoints.upperJoint), upper, 5);
    close(applyPoint(tieRod, hardpoints.tieRodOuter), outer, 5);
  });

  it.each([
    { rack: -40, toe: -16.21142, camber: 1.26048, x: -80.0078, y: 905.1246 },
    { rack: -20, toe: -8.1329, camber: 0.51229, x: -60.2521, y: 908.9183 },
    { rack: 20, toe: 8.29003, camber: -0.27442, x: -19.4083, y: 908.2693 },
    { rack: 40, toe: 16.82943, camber: -0.2998, x: 1.2978, y: 903.5419 },
  ])('rack moved $rack mm to the left at constant wheel-centre height', ({ rack, toe, camber, x, y }) => {
    // The tie rod is behind the axle, so the rack moves right to turn the front edge left.
    const pose = solved(mechanism, 0, -rack / 40);
    close([pose.carriers.rack[3], pose.carriers.rack[7], pose.carriers.rack[11]], [0, rack, 0], 12);
    const alignment = alignmentAt(mechanism, pose, { radiusMm: HMMWV_TYRE_RADIUS_MM, planeMm: 0 });
    expect(alignment.toeDeg).toBeCloseTo(toe, 5);
    expect(alignment.camberDeg).toBeCloseTo(camber, 5);
    expect(alignment.wheelCentreMm[0]).toBeCloseTo(x, 4);
    expect(alignment.wheelCentreMm[1]).toBeCloseTo(y, 4);
  });

  it('has the static angles and ground offsets computed by hand from the hardpoints', () => {
    const alignment = alignmentAt(mechanism, solved(mechanism, 0, 0), {
      radiusMm: HMMWV_TYRE_RADIUS_MM,
      planeMm: 0,
    });
    const degrees = 180 / Math.PI;
    expect(alignment.kingpinInclinationDeg).toBeCloseTo(Math.atan(71 / 333) * degrees, 12);
    expect(alignment.casterDeg).toBeCloseTo(Math.atan(17 / 333) * degrees, 12);
    // Descent of the kingpin from z = -118 to the contact plane at z = -26 - 467.
    const fall = (493 - 118) / 333;
    expect(alignment.scrubRadiusMm).toBeCloseTo(910 - (787 + 71 * fall), 10);
    expect(alignment.mechanicalTrailMm).toBeCloseTo(-36 + 17 * fall + 40, 10);
  });

  it('moves the lower joint on a circle of sqrt(480^2 + 118^2) = 494.29 mm about y 307, z 0', () => {
    for (let rise = -150; rise <= 150; rise += 10) {
      const pose = solved(mechanism, rise, rise / 200);
      const [x, y, z] = applyPoint(pose.carriers.upright, hardpoints.lowerJoint);
      expect(x).toBeCloseTo(-36, 10);
      expect(Math.hypot(y - 307, z)).toBeCloseTo(Math.hypot(480, 118), 10);
    }
  });
});
