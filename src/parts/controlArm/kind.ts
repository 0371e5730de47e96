import { z } from 'zod';
import { fittedFields } from '../../design/partFields.ts';
import { namesInAll } from '../../layouts/layoutOf.ts';
import type { Quantities } from '../../units/quantities.ts';
import type { PartKindRecord } from '../partKind.ts';

export const controlArm: PartKindRecord<typeof schema, 'controlArm'> = {
  name: 'Control arm',
  schema,
  step: () => 0,
  only: { field: 'arm', role: (arm) => `the ${arm} arm` },
  needs: [],
  sitsOn: [],
  order: [],
  isClamped: false,
  solids: { controlArm: { clearance: 'link' } },
};

function schema(quantity: Quantities) {
  const { size } = quantity;
  return z.strictObject({
    ...fittedFields(quantity),
    kind: z.literal('controlArm').describe('An upper or lower control arm of round tubes.'),
    arm: z.enum(namesInAll(({ arms }) => Object.keys(arms))).describe('Which of the two arms this is.'),
    tubeDiameter: size("Outside diameter of the arm's tubes. Use a vernier caliper."),
    pivotDiameter: size(
      'Outside diameter of the bushing or joint housing at each inner pivot. Use a vernier caliper.',
    ),
    pivotLength: size(
      'Length of the bushing or joint housing at each inner pivot, along the pivot line. Use a vernier caliper.',
    ),
    cupDiameter: size('Outside diameter of the cup that holds the outer joint. Use a vernier caliper.'),
    cupHeight: size('Height of the cup that holds the outer joint, along its axis. Use a vernier caliper.'),
    brace: z
      .strictObject({
        at: z
          .number()
          .min(0.05)
          .max(0.95)
          .describe(
            'Place of the brace as a fraction of the way from the inner pivots (0) to the outer joint (1). Use a tape: distance from the pivot, divided by the length of the tube.',
          ),
        diameter: size('Outside diameter of the brace. Use a vernier caliper.'),
      })
      .optional()
      .describe('Cross-brace between the tubes; leave out for none.'),
    gusset: z
      .strictObject({
        thickness: size('Thickness of the gusset plate. Use a vernier caliper.'),
        length: size("Length of the gusset along each tube, from the outer joint's centre. Use a tape."),
      })
      .optional()
      .describe('Plate in the corner between the tubes at the outer joint; leave out for none.'),
  });
}
