import { z } from 'zod';
import { fittedFields } from '../../design/partFields.ts';
import type { Quantities } from '../../units/quantities.ts';
import { ONE_OF_ITS_KIND, type PartKindRecord } from '../partKind.ts';

export const damper: PartKindRecord<typeof schema, 'damperBody' | 'damperRod'> = {
  name: 'Damper',
  schema,
  step: () => 0,
  only: ONE_OF_ITS_KIND,
  needs: [],
  sitsOn: [],
  order: [
    ['rodDiameter', '<', 'bodyDiameter'],
    ['bodyDiameter', '<', 'spring.outerDiameter'],
    ['spring.seat', '<=', 'bodyLength'],
    ['bodyLength', '<', 'closedLength'],
    ['closedLength', '<', 'openLength'],
  ],
  bought: { free: [] },
  isClamped: false,
  solids: {
    damperBody: { suffix: 'body', clearance: 'damper' },
    damperRod: { suffix: 'rod', clearance: 'damper' },
  },
};

function schema(quantity: Quantities) {
  const { size, direction } = quantity;
  return z.strictObject({
    ...fittedFields(quantity),
    kind: z.literal('damper').describe('A damper, with or without a spring over it.'),
    bodyDiameter: size("Outside diameter of the damper's body. Use a vernier caliper."),
    bodyLength: size(
      "Distance from the centre of the body's mount to the body's other end, where the rod comes out. Use a tape.",
    ),
    rodDiameter: size('Diameter of the rod. Use a vernier caliper.'),
    closedLength: size(
      'Distance between the centres of the two mounts, fully compressed. Use a tape, or the data sheet.',
    ).optional(),
    openLength: size(
      'Distance between the centres of the two mounts, fully extended. Use a tape, or the data sheet.',
    ).optional(),
    bodyEnd: z
      .enum(['chassis', 'arm'])
      .default('arm')
      .describe('Mount that the body is on; the rod is on the other.'),
    eyeDiameter: size('Outside diameter of each mounting eye. Use a vernier caliper.').default(36),
    eyeWidth: size('Width of each mounting eye, along its bolt. Use a vernier caliper.').default(25),
    eyeDirection: direction(
      'Direction of the mounting bolts at ride height. 1, 0, 0 is fore and aft. Use a square or a protractor.',
    ).default([1, 0, 0]),
    spring: z
      .strictObject({
        outerDiameter: size('Outside diameter of the spring. Use a vernier caliper.'),
        seat: size(
          "Distance from the centre of the body's mount to the spring seat on the body. Use a tape.",
        ),
      })
      .optional()
      .describe('Spring over the damper; leave out for none.'),
  });
}
