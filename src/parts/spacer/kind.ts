import { z } from 'zod';
import { fittedFields } from '../../design/partFields.ts';
import type { Quantities } from '../../units/quantities.ts';
import type { PartKindRecord } from '../partKind.ts';

export const spacer: PartKindRecord<typeof schema, 'spacer'> = {
  name: 'Spacer',
  schema,
  step: ({ place }) => (place === 'upright' ? 1 : 3),
  only: undefined,
  needs: [
    {
      kind: 'hub',
      if: { field: 'place', value: 'upright' },
      why: 'the spacer sits behind its bearing housing',
    },
  ],
  sitsOn: [],
  order: [['innerDiameter', '<', 'outerDiameter']],
  isClamped: true,
  solids: { spacer: { clearance: 'onStuds' } },
};

function schema(quantity: Quantities) {
  const { size } = quantity;
  return z.strictObject({
    ...fittedFields(quantity),
    kind: z.literal('spacer').describe('A plain ring under the wheel, or behind the bearing housing.'),
    place: z
      .enum(['wheel', 'upright'])
      .describe(
        'Wheel: between hub (or rotor hat) and wheel. Upright: between bearing housing and upright plate.',
      ),
    thickness: size('Thickness of the ring along the wheel axis. Use a vernier caliper.'),
    outerDiameter: size('Outside diameter of the ring. Use a vernier caliper.'),
    innerDiameter: size('Inside diameter of the ring. Use a vernier caliper.'),
  });
}
