import { z } from 'zod';
import { fittedFields } from '../../design/partFields.ts';
import type { Quantities } from '../../units/quantities.ts';
import { ONE_OF_ITS_KIND, type PartKindRecord } from '../partKind.ts';

export const tieRod: PartKindRecord<typeof schema, 'tieRod'> = {
  name: 'Tie rod',
  schema,
  step: () => 0,
  only: ONE_OF_ITS_KIND,
  needs: [],
  sitsOn: [],
  order: [],
  isClamped: false,
  solids: { tieRod: { clearance: 'link' } },
};

function schema(quantity: Quantities) {
  const { size } = quantity;
  return z.strictObject({
    ...fittedFields(quantity),
    kind: z.literal('tieRod').describe('The tube of the tie rod; its ends are parts of kind "joint".'),
    tubeDiameter: size('Outside diameter of the tube. Use a vernier caliper.'),
    endGap: size(
      "Distance from each joint's centre to the end of the tube: room for the rod end's shank. Use a vernier caliper.",
    ).default(45),
  });
}
