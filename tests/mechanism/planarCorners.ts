/** Corners whose arms turn about lines along X, so that their poses and limits have closed forms in the plane. */
import type { Hardpoints, Suspension } from '../../src/design/schema.ts';

export const cornerOf = (hardpoints: Hardpoints, changes: Partial<Suspension> = {}): Suspension => ({
  layout: 'doubleWishboneRack',
  hardpoints,
  camberDeg: 0,
  toeDeg: 0,
  travel: { bump: 80, droop: 80 },
  steering: { rackOutboard: 50, rackInboard: 50, rackDirection: [0, 1, 0] },
  ...changes,
});

/**
 * Both arms and the tie rod are parallel and 400 mm long, so the upright only translates. Kingpin along (0, -60,
 * 240).
 */
export const PARALLEL = cornerOf({
  lowerArmFront: [150, 300, 200],
  lowerArmRear: [-150, 300, 200],
  lowerJoint: [0, 700, 200],
  upperArmFront: [150, 240, 440],
  upperArmRear: [-150, 240, 440],
  upperJoint: [0, 640, 440],
  tieRodInner: [-120, 290, 260],
  tieRodOuter: [-120, 690, 260],
  wheelCentre: [0, 780, 320],
});

/** Vertical kingpin at y 700; tie rod of 370 mm along Y on a steering arm of 120 mm straight to the rear. */
export const UPRIGHT_KINGPIN = cornerOf({
  lowerArmFront: [150, 300, 200],
  lowerArmRear: [-150, 300, 200],
  lowerJoint: [0, 700, 200],
  upperArmFront: [150, 350, 440],
  upperArmRear: [-150, 350, 440],
  upperJoint: [0, 700, 440],
  tieRodInner: [-120, 330, 260],
  tieRodOuter: [-120, 700, 260],
  wheelCentre: [0, 780, 320],
});

/**
 * Lower arm 400 mm, upper arm 250 mm. The wheel centre is midway between the joints, so steering does not change its
 * height.
 */
export const SHORT_UPPER_ARM = cornerOf({
  lowerArmFront: [150, 300, 200],
  lowerArmRear: [-150, 300, 200],
  lowerJoint: [0, 700, 200],
  upperArmFront: [150, 420, 440],
  upperArmRear: [-150, 420, 440],
  upperJoint: [0, 670, 440],
  tieRodInner: [-120, 330, 255],
  tieRodOuter: [-120, 690, 260],
  wheelCentre: [0, 685, 320],
});
