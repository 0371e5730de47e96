/** A small invented corner: two arms, a tie rod and boxes near them. Left-hand coordinates, mm. */
export interface CornerSource {
  format: string;
  version: number;
  name: string;
  note?: string;
  side: 'left' | 'right';
  unit?: 'mm' | 'in';
  suspension: Record<string, unknown>;
  parts: Record<string, unknown>[];
  pairs: Record<string, unknown>[];
}

export const cornerSource = (changes: Partial<CornerSource> = {}): CornerSource => ({
  format: 'daylight.corner',
  version: 1,
  name: 'Gravel kit car',
  side: 'left',
  suspension: {
    layout: 'doubleWishboneRack',
    hardpoints: {
      lowerArmFront: [120, 280, 230],
      lowerArmRear: [-180, 280, 230],
      lowerJoint: [5, 660, 200],
      upperArmFront: [100, 330, 480],
      upperArmRear: [-150, 330, 480],
      upperJoint: [-15, 620, 500],
      tieRodInner: [110, 300, 260],
      tieRodOuter: [120, 640, '9 27/32 in ±1/32'],
      wheelCentre: [0, 720, 330],
    },
    camberDeg: -1,
    toeDeg: 0.2,
    hubFace: -20,
    travel: { bump: 60, droop: 50 },
    steering: { rackOutboard: 40, rackInboard: 30 },
  },
  parts: [
    {
      kind: 'controlArm',
      id: 'lowerArm',
      label: 'Lower arm',
      arm: 'lower',
      tubeDiameter: '1 1/4 in',
      pivotDiameter: 40,
      pivotLength: 50,
      cupDiameter: 50,
      cupHeight: 30,
    },
    {
      kind: 'controlArm',
      id: 'upperArm',
      label: 'Upper arm',
      arm: 'upper',
      tubeDiameter: 25,
      pivotDiameter: 36,
      pivotLength: 45,
      cupDiameter: 45,
      cupHeight: 25,
      allowance: 1,
    },
    { kind: 'tieRod', id: 'tieRod', label: 'Tie rod', tubeDiameter: 22 },
    { kind: 'box', id: 'battery', label: 'Battery', centre: [0, 450, 355], size: [150, 60, 50] },
    {
      kind: 'box',
      id: 'sensor',
      label: 'Wheel speed sensor',
      carrier: 'upright',
      centre: [-60, 660, 330],
      size: [20, 20, 20],
    },
  ],
  pairs: [],
  ...changes,
});

export const cornerText = (changes: Partial<CornerSource> = {}): string =>
  JSON.stringify(cornerSource(changes), null, 2);
