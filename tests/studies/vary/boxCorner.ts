import type { SweepSettings } from '../../../src/sweep/result.ts';

/** Few steps, because the clearances between them are proved. */
export const FEW_STEPS: SweepSettings = {
  travelSteps: 7,
  steerSteps: 5,
  limitMm: 60,
  chordToleranceMm: 0.05,
};

/** Length of the arms of `parallelArms`, and the height of the lower arms' pivots, mm. */
export const ARM_MM = 360;
export const PIVOT = { y: 300, z: 230 };
export const BUMP_MM = 60;

/**
 * Arms and tie rod of equal length, level and parallel: the upright moves without turning. At a wheel rise h, an arm
 * has turned by asin(h / ARM_MM) about its pivots, which are parallel to X. The rack does not move.
 */
export const parallelArms = {
  layout: 'doubleWishboneRack',
  hardpoints: {
    lowerArmFront: [150, PIVOT.y, PIVOT.z],
    lowerArmRear: [-150, PIVOT.y, PIVOT.z],
    lowerJoint: [0, PIVOT.y + ARM_MM, PIVOT.z],
    upperArmFront: [150, PIVOT.y, 480],
    upperArmRear: [-150, PIVOT.y, 480],
    upperJoint: [0, PIVOT.y + ARM_MM, 480],
    tieRodInner: [120, PIVOT.y, 300],
    tieRodOuter: [120, PIVOT.y + ARM_MM, 300],
    wheelCentre: [0, 720, 330],
  },
  camberDeg: 0,
  toeDeg: 0,
  hubFace: 10,
  travel: { bump: BUMP_MM, droop: 50 },
  steering: { rackOutboard: 0, rackInboard: 0 },
};

/** A corner with the given parts, on arms with a motion in closed form. */
export const boxCorner = (
  parts: readonly object[],
  changes: Record<string, unknown> = {},
): Record<string, unknown> => ({
  format: 'daylight.corner',
  version: 1,
  name: 'Boxes',
  suspension: parallelArms,
  parts,
  ...changes,
});

export const box = (id: string, carrier: string, centre: number[], size: number[]) => ({
  id,
  kind: 'box',
  carrier,
  centre,
  size,
});
