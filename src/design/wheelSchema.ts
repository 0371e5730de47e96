import { z } from 'zod';
import { line, type Quantities } from './quantities.ts';

/** Half codes (16.5 to 22.5) have another contour: ISO 4209-2, JIS D 4218:2021 clause 7. Its dimensions are not known here. */
const HALF_CODE =
  'is not a whole number: rims of half codes (16.5, 17.5, 19.5, 22.5) have bead seats of 15 degrees, of which the dimensions ' +
  'are not known here; write a whole code from 8 to 30, or leave wheel and tyre out and draw them as tubes, boxes and plates ' +
  'on the carrier "wheel"';

/** A wheel. `common` are the fields of every part. */
export function wheelSchema<C extends z.core.$ZodShape>(
  { coordinate, size, count }: Pick<Quantities, 'coordinate' | 'size' | 'count'>,
  common: C,
) {
  return z.strictObject({
    ...common,
    kind: z.literal('wheel'),
    diameterCode: z
      .number()
      .min(8)
      .max(30)
      .refine(Number.isInteger, HALF_CODE)
      .describe(
        'Diameter code of the rim, inches as a plain whole number: 17 for a 17-inch rim. Rims of half codes (16.5, 17.5, 19.5, 22.5) are not modelled.',
      ),
    width: size('Between the bead seats, as sold: "9 in".'),
    offset: coordinate(
      'Hub mounting face to rim centre plane, positive with the face outboard. Give this or backspacing.',
    ).optional(),
    backspacing: coordinate(
      'Hub mounting face to the inboard edge of the inboard flange. Give this or offset.',
    ).optional(),
    lip: size(
      'Thickness of each rim flange beyond the bead seat: half an inch where nobody says otherwise.',
    ).default(12.7),
    flangeHeight: size('Of each rim flange above the bead seat, on the radius.').default(17.5),
    wall: size('Wall thickness of the barrel.').default(4),
    dropDepth: size('Depth of the drop centre below the bead seat, on the tyre side.').default(17.3),
    dropPlace: coordinate(
      "Middle of the drop centre, from the rim's centre plane, positive outboard.",
    ).default(0),
    dropWidth: size('Width of the drop centre at its floor.').default(60),
    innerBarrel: z
      .array(
        z.strictObject({
          depth: coordinate('From the hub mounting face, inboard negative.'),
          radius: size('Inside of the barrel.'),
        }),
      )
      .min(2)
      .optional()
      .describe(
        'Inside of the barrel as measured, inboard edge first. Replaces the standard contour on the inside.',
      ),
    padThickness: size(
      'Thickness of the centre pad at the bolt circle, from the mounting face outboard.',
    ).default(12),
    padDiameter: size('Diameter of the centre pad.').default(170),
    spokeDepth: coordinate(
      'Inboard surface of the spokes at the rim, from the mounting face, positive outboard.',
    ).default(25),
    spokeThickness: size('Along the wheel axis.').default(14),
    spokes: count(0, 40, 'Number of spokes; 0 for a solid disc.').default(0),
    spokeWidth: size('Width of one spoke; the disc is solid where spokes is 0.').default(45),
    boltCount: count(3, 12, 'Number of bolt holes.').default(5),
    boltCircle: size('Diameter of the circle through the bolt holes.').default(114.3),
    boltHole: size('Diameter of each bolt hole.').default(14),
    centreBore: size('Diameter of the hole for the hub pilot.').default(70),
  });
}

/** A tyre. `common` are the fields of every part but the step of assembly: a tyre goes on with its wheel. */
export function tyreSchema<C extends z.core.$ZodShape>(
  { size, extent }: Pick<Quantities, 'size' | 'extent'>,
  common: C,
) {
  return z.strictObject({
    ...common,
    kind: z.literal('tyre'),
    designation: line().describe(
      '"205/55R16", "LT265/70R17", "37x12.5R17LT" or "7.00R16"; beside a numeric size such as the last give overallDiameter and sectionWidth, as it says neither.',
    ),
    overallDiameter: size('As measured, mounted and inflated; overrides the designation.').optional(),
    sectionWidth: size('As measured, mounted and inflated; overrides the designation.').optional(),
    treadWidth: size('Across the tread; from the section width where absent.').optional(),
    growth: extent(
      'Growth in service of the radius and of each side, added all round to the checked solid.',
    ).default(0),
  });
}
