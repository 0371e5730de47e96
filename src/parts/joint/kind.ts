import { z } from 'zod';

import { fittedFields } from '../../design/partFields.ts';
import { namesInAll } from '../../layouts/layoutOf.ts';
import type { Quantities } from '../../units/quantities.ts';
import type { PartKindRecord } from '../partKind.ts';

export const joint: PartKindRecord<typeof schema, 'joint' | 'jointBolt'> = {
  name: 'Joint',
  schema,
  step: () => 0,
  only: { field: 'at', role: (place) => `the joint at ${place}` },
  needs: [],
  sitsOn: [],
  order: [
    ['ballDiameter', '<', 'housingDiameter'],
    ['boltDiameter', '<', 'ballDiameter'],
    ['housingWidth', '<', 'ballDiameter'],
    ['ballWidth', '<', 'ballDiameter'],
    ['boltDiameter', '<', 'boltHead.diameter'],
    ['boltDiameter', '<=', 'spacers.diameter'],
    ['spacers.diameter', '<', 'ballDiameter'],
  ],
  bought: { free: [] },
  isClamped: false,
  solids: { joint: { clearance: 'link' }, jointBolt: { suffix: 'bolt', clearance: 'link' } },
};

function schema(quantity: Quantities) {
  const { size, direction, degrees } = quantity;
  return z.strictObject({
    ...fittedFields(quantity),
    kind: z.literal('joint').describe('A ball joint, spherical bearing or rod end, with its bolt.'),
    at: z
      .enum(namesInAll(({ joints }) => Object.keys(joints)))
      .describe('Point of the suspension where the joint is.'),
    form: z
      .enum(['ball', 'cup', 'rodEnd'])
      .describe('Ball: a ball joint. Cup: a spherical bearing in a cup. Rod end: a rod end with its shank.'),
    ballDiameter: size('Diameter of the ball. Use a vernier caliper, or the data sheet.'),
    housingDiameter: size("Outside diameter of the cup, or of the rod end's head. Use a vernier caliper."),
    housingWidth: size('Width of the cup or head, along its axis. Use a vernier caliper.'),
    boltDiameter: size("Diameter of the joint's bolt. Use a vernier caliper."),
    boltLength: size(
      "Whole length of the bolt with head, spacers and nut; half of it is on each side of the ball's centre. Use a vernier caliper.",
    ),
    boltDirection: direction(
      'Direction of the bolt at ride height. 0, 0, 1 is upright. Use a square or a protractor.',
    ).default([0, 0, 1]),
    boltHead: z
      .strictObject({
        diameter: size('Diameter of head and nut across the corners. Use a vernier caliper.'),
        height: size('Height of head and nut, along the bolt. Use a vernier caliper.'),
      })
      .optional()
      .describe(
        "Head and nut at the two ends of the bolt length. If left out, those usual for the bolt diameter. An end inside the upright's boss has neither.",
      ),
    ballWidth: size(
      'Width of the ball between its two flat faces, along the bolt. Use a vernier caliper. If left out, the ball is whole.',
    ).optional(),
    spacers: z
      .strictObject({
        diameter: size('Outside diameter of the spacer where it bears on the ball. Use a vernier caliper.'),
        length: size("Length of the spacer from the ball's face, along the bolt. Use a vernier caliper."),
      })
      .optional()
      .describe('Misalignment spacer on each side of the ball; leave out for none.'),
    housingDirection: direction(
      "Direction of the housing's axis at ride height; that of the bolt if left out. For a rod end, only the part square to the shank counts. Use a square or a protractor.",
    ).optional(),
    allowedTiltDeg: degrees(
      0.1,
      90,
      "Greatest tilt of the bolt to each side. Use the maker's data sheet, or a protractor. If left out, computed from ball, housing, bolt and spacers.",
    ).optional(),
    shankDiameter: size(
      "Diameter of a rod end's shank, over the thread. Use a vernier caliper. Leave out for other joints.",
    ).optional(),
    shankLength: size(
      "Length of a rod end's shank, from the ball's centre to its end. Use a vernier caliper. Leave out for other joints.",
    ).optional(),
  });
}
