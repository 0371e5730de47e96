import { z } from 'zod';
import { carriedFields } from '../../design/partFields.ts';
import type { Quantities } from '../../units/quantities.ts';
import { type PartKindRecord, PLAIN_SHAPE } from '../partKind.ts';

export const tube: PartKindRecord<typeof schema, 'tube'> = {
  name: 'Tube',
  ...PLAIN_SHAPE,
  schema,
  solids: { tube: { clearance: 'chassis' } },
};

function schema(quantity: Quantities) {
  const { size, point } = quantity;
  return z.strictObject({
    ...carriedFields(quantity),
    kind: z.literal('tube').describe('A straight round tube, such as one of the frame.'),
    from: point('Centre of the tube at its one end.'),
    to: point('Centre of the tube at its other end.'),
    diameter: size('Outside diameter of the tube. Use a vernier caliper.'),
  });
}
