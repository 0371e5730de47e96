import { z } from 'zod';
import { fittedFields } from '../../design/partFields.ts';
import type { Quantities } from '../../units/quantities.ts';
import { ONE_OF_ITS_KIND, type PartKindRecord } from '../partKind.ts';

/** Rims of half codes (16.5 to 22.5) have another contour (ISO 4209-2, JIS D 4218:2021 clause 7), not known here. */
const HALF_CODE =
  'is not a whole number. Rims of half codes (16.5, 17.5, 19.5, 22.5) have bead seats of 15 degrees, whose dimensions Daylight ' +
  'does not know. Write a whole code from 8 to 30, or leave out wheel and tyre and draw them as tubes, boxes and plates ' +
  'on the carrier "wheel"';

export const wheel: PartKindRecord<typeof schema, 'wheel'> = {
  name: 'Wheel',
  schema,
  step: () => 3,
  only: ONE_OF_ITS_KIND,
  needs: [],
  sitsOn: [{ kind: 'hub' }, { kind: 'rotor' }, { kind: 'spacer', place: 'wheel' }],
  order: [
    ['centreBore', '<', 'boltCircle'],
    ['boltCircle', '<', 'padDiameter'],
    ['dropWidth', '<', 'width'],
  ],
  bought: { free: ['offset', 'backspacing'] },
  isClamped: true,
  solids: { wheel: { clearance: 'wheel' } },
};

function schema(quantity: Quantities) {
  const { coordinate, size, count } = quantity;
  return z.strictObject({
    ...fittedFields(quantity),
    kind: z.literal('wheel').describe('A wheel: rim, centre pad, and spokes or disc.'),
    diameterCode: z
      .number()
      .min(8)
      .max(30)
      .refine(Number.isInteger, HALF_CODE)
      .describe(
        'Rim diameter in inches, as stamped on the wheel: 17 for a 17-inch rim. Write a whole number; half codes (16.5, 17.5, 19.5, 22.5) are not modelled.',
      ),
    width: size(
      'Width of the rim between its two flanges, at the bead seats, as stamped on the wheel: "9 in". Use a vernier caliper or a tape.',
    ),
    offset: coordinate(
      "Distance from the rim's centre plane to the mounting face against the hub, positive if the face is outboard of the plane; stamped as ET. Use a straight edge and a tape. Give offset or backspacing, not both.",
    ).optional(),
    backspacing: coordinate(
      'Distance from the mounting face against the hub to the inboard edge of the inboard flange. Lay a straight edge across the rim and use a tape. Give backspacing or offset, not both.',
    ).optional(),
    lip: size(
      'Thickness of each rim flange along the wheel axis, from the bead seat to the outer edge; usually 1/2 in. Use a vernier caliper.',
    ).default(12.7),
    flangeHeight: size(
      'Height of each rim flange above the bead seat, along the radius. Use a vernier caliper.',
    ).default(17.5),
    wall: size('Wall thickness of the barrel. Use a vernier caliper.').default(4),
    dropDepth: size(
      'Depth of the drop centre on the tyre side, from the bead seat at the flange to the floor of the drop. Use a straight edge and a vernier caliper.',
    ).default(17.3),
    dropPlace: coordinate(
      "Distance from the rim's centre plane to the middle of the drop centre, positive outboard. Use a tape.",
    ).default(0),
    dropWidth: size('Width of the floor of the drop centre, along the wheel axis. Use a tape.').default(60),
    innerBarrel: z
      .array(
        z
          .strictObject({
            depth: coordinate(
              'Distance of this station from the mounting face, along the wheel axis; negative inboard of the face. Use a square and a tape.',
            ),
            radius: size(
              'Radius from the wheel axis to the inside of the barrel at this station: half of the inside diameter. Use a vernier caliper or a tape.',
            ),
          })
          .describe('One station on the inside of the barrel: its depth, and the radius there.'),
      )
      .min(2)
      .optional()
      .describe(
        'Inside of the barrel at two or more stations, from the inboard edge outboard. These replace the standard contour on the inside.',
      ),
    padThickness: size(
      'Thickness of the centre pad at the bolt holes, from the mounting face outboard. Use a vernier caliper.',
    ).default(12),
    padDiameter: size(
      'Outside diameter of the centre pad around the bolt holes. Use a vernier caliper.',
    ).default(170),
    spokeDepth: coordinate(
      'Distance from the mounting face to the inboard surface of the spokes where they meet the rim, positive outboard. Use a straight edge and a tape.',
    ).default(25),
    spokeThickness: size('Thickness of a spoke along the wheel axis. Use a vernier caliper.').default(14),
    spokes: count(0, 40, 'Number of spokes; 0 for a solid disc.').default(0),
    spokeWidth: size(
      'Width of one spoke, from side to side; not used for a solid disc. Use a vernier caliper.',
    ).default(45),
    boltCount: count(3, 12, 'Number of bolt holes.').default(5),
    boltCircle: size(
      'Diameter of the circle through the centres of the bolt holes. Use a vernier caliper. With 4, 6 or 8 holes: from the inner edge of one to the outer edge of the opposite one. With 5: from the edge of one to the same edge of the next, times 1.701.',
    ).default(114.3),
    boltHole: size('Diameter of each bolt hole. Use a vernier caliper.').default(14),
    centreBore: size(
      "Diameter of the centre hole, which fits over the hub's pilot. Use a vernier caliper.",
    ).default(70),
  });
}
