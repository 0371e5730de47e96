/**
 * Hardpoints of three double wishbones from the Project Chrono vehicle data (BSD-3-Clause), projectchrono/chrono at
 * commit 7689fbc02d12c5419fa6acad8791100fd89979dd: metres, X forward, Y left, Z up, left side, spin axis along Y.
 * Here in millimetres. The rack is along Y; its travel is our own.
 */
import type { Suspension } from '../../src/design/schema.ts';

type Metres = readonly [number, number, number];
/** Exact: the source gives at most tenths of a millimetre. */
const mm = (p: Metres): [number, number, number] => [
  Math.round(p[0] * 1e4) / 10,
  Math.round(p[1] * 1e4) / 10,
  Math.round(p[2] * 1e4) / 10,
];

interface ChronoPoints {
  ucaFront: Metres;
  ucaBack: Metres;
  ucaUpright: Metres;
  lcaFront: Metres;
  lcaBack: Metres;
  lcaUpright: Metres;
  tieRodChassis: Metres;
  tieRodUpright: Metres;
  spindle: Metres;
  shockChassis: Metres;
  shockArm: Metres;
}

const suspension = (p: ChronoPoints): Suspension => ({
  layout: 'doubleWishboneRack',
  hardpoints: {
    lowerArmFront: mm(p.lcaFront),
    lowerArmRear: mm(p.lcaBack),
    lowerJoint: mm(p.lcaUpright),
    upperArmFront: mm(p.ucaFront),
    upperArmRear: mm(p.ucaBack),
    upperJoint: mm(p.ucaUpright),
    tieRodInner: mm(p.tieRodChassis),
    tieRodOuter: mm(p.tieRodUpright),
    wheelCentre: mm(p.spindle),
  },
  damper: { chassisMount: mm(p.shockChassis), armMount: mm(p.shockArm), on: 'lowerArm' },
  camberDeg: 0,
  toeDeg: 0,
  travel: { bump: 100, droop: 100 },
  steering: { rackOutboard: 40, rackInboard: 40, rackDirection: [0, 1, 0] },
});

/** data/vehicle/hmmwv/suspension/HMMWV_DoubleWishboneFront.json */
export const HMMWV = suspension({
  ucaFront: [-0.048, 0.446, 0.245],
  ucaBack: [-0.268, 0.478, 0.196],
  ucaUpright: [-0.053, 0.716, 0.215],
  lcaFront: [0.223, 0.307, 0],
  lcaBack: [-0.223, 0.307, 0],
  lcaUpright: [-0.036, 0.787, -0.118],
  tieRodChassis: [-0.25, 0.448, 0.054],
  tieRodUpright: [-0.176, 0.821, -0.016],
  spindle: [-0.04, 0.91, -0.026],
  shockChassis: [0.104, 0.498, 0.323],
  shockArm: [0.097, 0.543, -0.047],
});
/** hmmwv/tire/HMMWV_RigidTire.json */
export const HMMWV_TYRE_RADIUS_MM = 467;

/** data/vehicle/sedan/suspension/Sedan_DoubleWishbone.json */
export const SEDAN = suspension({
  ucaFront: [-0.1, 0.47, 0.105],
  ucaBack: [-0.25, 0.51, 0.11],
  ucaUpright: [-0.04, 0.695, 0.105],
  lcaFront: [0.2, 0.42, -0.27],
  lcaBack: [-0.2, 0.47, -0.265],
  lcaUpright: [0, 0.77, -0.32],
  tieRodChassis: [-0.2, 0.42, -0.12],
  tieRodUpright: [-0.15, 0.77, -0.12],
  spindle: [0, 0.7979, -0.1199],
  shockChassis: [-0.04, 0.52, 0.23],
  shockArm: [0, 0.62, -0.27],
});
/** sedan/tire/Sedan_RigidTire.json */
export const SEDAN_TYRE_RADIUS_MM = 326.6;

/** data/vehicle/Polaris/Polaris_Front_DoubleWishbone.json */
export const OFF_ROAD_BUGGY = suspension({
  ucaFront: [0.161, 0.136, 0.271],
  ucaBack: [-0.087, 0.131, 0.227],
  ucaUpright: [-0.008, 0.571, 0.088],
  lcaFront: [0.047, 0.112, 0.088],
  lcaBack: [-0.246, 0.108, 0.053],
  lcaUpright: [0.016, 0.574, -0.082],
  tieRodChassis: [-0.137, 0.113, 0.055],
  tieRodUpright: [-0.097, 0.533, -0.088],
  spindle: [0, 0.616, 0],
  shockChassis: [-0.053, 0.166, 0.574],
  shockArm: [-0.002, 0.432, 0.186],
});
