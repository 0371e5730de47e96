import { z } from 'zod';
import { carriedFields } from '../../design/partFields.ts';
import type { Quantities } from '../../units/quantities.ts';
import { type PartKindRecord, PLAIN_SHAPE } from '../partKind.ts';

export const plate: PartKindRecord<typeof schema, 'plate'> = {
  name: 'Plate',
  ...PLAIN_SHAPE,
  schema,
  solids: { plate: { clearance: 'chassis' } },
};

function schema(quantity: Quantities) {
  const { size, point } = quantity;
  return z.strictObject({
    ...carriedFields(quantity),
    kind: z.literal('plate').describe('A flat plate with straight edges.'),
    outline: z
      .array(point('A corner of the plate.'))
      .min(3)
      .describe('Corners of one face of the plate, in order around it; all in one plane.'),
    thickness: size(
      'Thickness of the plate, on the side from which the corners run anticlockwise. Use a vernier caliper.',
    ),
  });
}
