/**
 * A corner with a trailing arm in the plane: pivot line across the vehicle, kingpin upright, wheel centre at the height
 * of the pivots. Arm 350 mm long, kingpin 140 mm inboard of the wheel centre.
 */
export const ARM_MM = 350;
export const OFFSET_MM = 140;
export const LOCK_DEG = { outboard: 25, inboard: 30 };

export const trailingCorner = () => ({
  format: 'daylight.corner',
  version: 1,
  name: 'Trailing arm',
  suspension: {
    layout: 'trailingArm',
    hardpoints: {
      pivotInboard: [ARM_MM, 250, 320],
      pivotOutboard: [ARM_MM, 450, 320],
      kingpinLower: [0, 560, 230],
      kingpinUpper: [0, 560, 410],
      wheelCentre: [0, 560 + OFFSET_MM, 320],
    },
    damper: { chassisMount: [150, 400, 700], armMount: [150, 400, 340], on: 'arm' },
    travel: { bump: 80, droop: 70 },
    steering: { outboardDeg: LOCK_DEG.outboard, inboardDeg: LOCK_DEG.inboard },
  },
  parts: [
    {
      id: 'wheel',
      kind: 'wheel',
      diameterCode: 17,
      width: '8 in',
      offset: 25,
      boltCount: 5,
      boltCircle: 114.3,
    },
    { id: 'tyre', kind: 'tyre', designation: '225/60R17' },
    { id: 'arm', kind: 'tube', carrier: 'arm', from: [ARM_MM, 420, 320], to: [60, 520, 320], diameter: 50 },
    { id: 'knuckle', kind: 'box', carrier: 'upright', centre: [0, 590, 320], size: [60, 40, 180] },
    {
      id: 'frame',
      kind: 'tube',
      carrier: 'chassis',
      from: [420, 430, 380],
      to: [-400, 430, 480],
      diameter: 40,
    },
    {
      id: 'pivot',
      kind: 'joint',
      at: 'pivotInboard',
      form: 'cup',
      ballDiameter: 30,
      housingDiameter: 44,
      housingWidth: 18,
      boltDiameter: 14,
      boltLength: 60,
      boltDirection: [0, 1, 0],
    },
    {
      id: 'damper',
      kind: 'damper',
      bodyDiameter: 46,
      bodyLength: 180,
      rodDiameter: 14,
      closedLength: 300,
      openLength: 420,
    },
  ],
});
