import { z } from 'zod';
import { fittedFields } from '../../design/partFields.ts';
import type { Quantities } from '../../units/quantities.ts';
import { ONE_OF_ITS_KIND, type PartKindRecord } from '../partKind.ts';

export const upright: PartKindRecord<typeof schema, 'upright'> = {
  name: 'Upright',
  schema,
  step: () => 0,
  only: ONE_OF_ITS_KIND,
  needs: [{ kind: 'hub', why: 'it bolts to the face of the bearing housing' }],
  sitsOn: [],
  order: [['hubMount.bore', '<', 'hubMount.diameter']],
  isClamped: true,
  solids: { upright: { clearance: 'atHub' } },
};

function schema(quantity: Quantities) {
  const { size, extent } = quantity;
  return z.strictObject({
    ...fittedFields(quantity),
    kind: z.literal('upright').describe('An upright: hub pad, two legs and a steering arm, of plate.'),
    plateThickness: size('Thickness of the plate. Use a vernier caliper.'),
    hubMount: z
      .strictObject({
        diameter: size(
          'Outside diameter of the round pad that the bearing housing, or its spacer, bolts to. Use a vernier caliper.',
        ),
        bore: size('Diameter of the hole through the pad. Use a vernier caliper.'),
      })
      .describe('Round pad that the bearing housing bolts to.'),
    legWidth: size('Width of the legs that run from the pad to the joints. Use a vernier caliper or a tape.'),
    kickOutRadius: size(
      'Distance from the wheel axis to the bend where the legs leave the plane of the pad toward the joints. Use a tape. If left out, they leave it at the edge of the pad.',
    ).optional(),
    boxDepth: extent(
      'Depth of the boxed legs along the wheel axis, plate included; 0 for a single plate. Use a vernier caliper.',
    ).default(0),
    boxWall: size('Wall thickness of the boxed legs. Use a vernier caliper.').default(3),
    steeringArm: z
      .strictObject({
        width: size('Width of the steering arm, across its flat side. Use a vernier caliper.'),
        thickness: size('Thickness of the steering arm. Use a vernier caliper.'),
      })
      .describe('Flat bar from the pad to the tie-rod joint.'),
    jointMounts: z
      .strictObject({
        diameter: size('Outside diameter of each boss. Use a vernier caliper.'),
        height: size("Length of each boss, along its joint's axis. Use a vernier caliper."),
      })
      .describe("Bosses that hold the joints' bolts or tapers."),
    jointGap: extent(
      "Distance from each joint's centre to the near face of its boss, along the joint's axis. Use a vernier caliper.",
    ).default(0),
  });
}
