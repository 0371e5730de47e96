import { identity } from '../../../src/math/rigid.ts';
import type { FlatPlate } from '../../../src/solids/flatPlates/flatPlate.ts';

/** Half circles of radius 10 on a bar 40 long, with a hole of 10 at each end and an opening of 6: areas by hand. */
export const stadium = (changes: Partial<FlatPlate> = {}): FlatPlate => ({
  id: 'link',
  name: 'Link',
  thicknessMm: 5,
  quantity: 2,
  sideUp: 'the face that looks up in the vehicle',
  origin: 'the left hole',
  outline: {
    kind: 'path',
    corners: [
      { at: [0, -10], bulge: 0 },
      { at: [40, -10], bulge: 1 },
      { at: [40, 10], bulge: 0 },
      { at: [0, 10], bulge: 1 },
    ],
  },
  openings: [{ loop: { kind: 'circle', centre: [20, 0], radiusMm: 3 }, use: 'opening' }],
  holes: [
    { at: [0, 0], use: 'pin', boltMm: 9, cut: { diameterMm: 10, from: 'measured' } },
    { at: [40, 0], use: 'pin', boltMm: 8, cut: { diameterMm: undefined, why: 'nobody measured it.' } },
  ],
  marks: [
    {
      at: [
        [20, -15],
        [20, 15],
      ],
      label: 'middle',
    },
  ],
  bends: [{ from: [30, -10], to: [30, 10], angleDeg: -12.5, beyond: [1, 0], allowanceMm: 0, shiftMm: 0 }],
  notes: ['A note.'],
  vehicleFromPlate: identity(),
  ...changes,
});

/** Its outline: 40 × 20 and a full circle of radius 10. */
export const STADIUM_MM2 = 800 + Math.PI * 100;
