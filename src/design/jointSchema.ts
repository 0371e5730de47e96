import { z } from 'zod';
import type { Quantities } from './quantities.ts';

export const JOINT_PLACES = [
  'lowerJoint',
  'upperJoint',
  'tieRodInner',
  'tieRodOuter',
  'lowerArmFront',
  'lowerArmRear',
  'upperArmFront',
  'upperArmRear',
] as const;

/** A spherical joint: a ball on a bolt, in a housing. `common` are the fields of every part. */
export function jointSchema<C extends z.core.$ZodShape>(
  { size, direction, degrees }: Pick<Quantities, 'size' | 'direction' | 'degrees'>,
  common: C,
) {
  return z.strictObject({
    ...common,
    kind: z.literal('joint'),
    at: z.enum(JOINT_PLACES),
    form: z.enum(['ball', 'cup', 'rodEnd']),
    ballDiameter: size(),
    housingDiameter: size("Outside of the cup, or of the rod end's head."),
    housingWidth: size("Along the joint's bolt."),
    boltDiameter: size(),
    boltLength: size('Whole length of bolt, spacers and nuts, centred on the joint.'),
    boltDirection: direction('Direction of the bolt at ride height, vehicle axes.').default([0, 0, 1]),
    boltHead: z
      .strictObject({ diameter: size('Across the corners.'), height: size('Along the bolt.') })
      .optional()
      .describe(
        'Head and nut of the bolt, at both ends of boltLength; the usual ones for boltDiameter where absent. An end inside the boss of the upright has neither.',
      ),
    ballWidth: size('Width of the ball over its two faces, along the bolt.').optional(),
    spacers: z
      .strictObject({
        diameter: size('Outside, where the spacer bears on the ball.'),
        length: size("From the ball's face, along the bolt."),
      })
      .optional()
      .describe('A misalignment spacer on each side of the ball; absent for none.'),
    housingDirection: direction(
      "Axis of the housing at ride height, vehicle axes; along the bolt where absent. A rod end's is taken square to its shank.",
    ).optional(),
    allowedTiltDeg: degrees(
      0.1,
      90,
      "Allowed misalignment to each side, from the maker's table; computed from ball, housing, bolt and spacers where absent.",
    ).optional(),
    shankDiameter: size("A rod end's shank, toward the member it ends.").optional(),
    shankLength: size().optional(),
  });
}
