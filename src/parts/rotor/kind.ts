import { z } from 'zod';
import { fittedFields } from '../../design/partFields.ts';
import type { Quantities } from '../../units/quantities.ts';
import type { PartKindRecord } from '../partKind.ts';

export const rotor: PartKindRecord<typeof schema, 'rotor'> = {
  name: 'Brake rotor',
  schema,
  step: () => 2,
  only: undefined,
  needs: [
    { kind: 'hub', if: { field: 'mount', value: 'behindFlange' }, why: 'the rotor bolts behind its flange' },
  ],
  sitsOn: [{ kind: 'hub' }],
  order: [
    ['hatDiameter', '<', 'diameter'],
    ['innerDiameter', '<', 'diameter'],
    ['centreBore', '<', 'hatDiameter'],
    ['thickness', '<=', 'height'],
    ['hatThickness', '<=', 'height'],
    ['hatBolts.circle', '<', 'hatDiameter'],
  ],
  bought: { free: [] },
  isClamped: true,
  solids: { rotor: { clearance: 'rotor' } },
};

function schema(quantity: Quantities) {
  const { size, degrees, count } = quantity;
  return z.strictObject({
    ...fittedFields(quantity),
    kind: z.literal('rotor').describe('A brake rotor with its hat.'),
    diameter: size('Outside diameter of the friction ring. Use a vernier caliper or a tape.'),
    thickness: size('Thickness of the rotor over both friction faces. Use a vernier caliper.'),
    innerDiameter: size('Inside diameter of the friction ring. Use a vernier caliper.').optional(),
    hatDiameter: size('Outside diameter of the hat. Use a vernier caliper.'),
    hatThickness: size('Thickness of the hat where it bolts to the hub. Use a vernier caliper.').default(7),
    height: size(
      "Overall height, from the hat's outer face to the inboard friction face. Lay the rotor on a flat surface and use a vernier caliper or a square.",
    ),
    centreBore: size(
      "Diameter of the hat's centre hole, which fits over the hub's pilot. Use a vernier caliper.",
    ).default(68),
    mount: z
      .enum(['overStuds', 'behindFlange'])
      .default('overStuds')
      .describe(
        "Place of the hat. Over studs: against the outer face of the hub's flange. Behind flange: bolted to the back of the flange.",
      ),
    hatBolts: z
      .strictObject({
        count: count(2, 16, 'Number of hat bolts.'),
        circle: size(
          'Diameter of the circle through the centres of the hat bolts. Use a vernier caliper: with an even number of holes, from the inner edge of one to the outer edge of the opposite one.',
        ),
        clockingDeg: degrees(
          -360,
          360,
          'Angle by which the hat bolts are turned about the wheel axis: 0 if one is straight above the axis, positive toward the rear. Use a protractor.',
        ).default(0),
      })
      .optional()
      .describe("Bolts that hold the hat to the hub's flange; leave out if the wheel studs hold it."),
  });
}
