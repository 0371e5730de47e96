import { z } from 'zod';
import { fittedFields } from '../../design/partFields.ts';
import type { Quantities } from '../../units/quantities.ts';
import type { PartKindRecord } from '../partKind.ts';

export const caliper: PartKindRecord<typeof schema, 'caliper'> = {
  name: 'Brake caliper',
  schema,
  step: () => 2,
  only: undefined,
  needs: [{ kind: 'rotor', why: 'it is placed from the friction faces' }],
  sitsOn: [{ kind: 'rotor' }, { kind: 'upright' }],
  order: [
    ['body.innerRadius', '<', 'body.outerRadius'],
    ['mount.boltDiameter', '<', 'mount.earDiameter'],
  ],
  bought: { free: ['clockingDeg'] },
  isClamped: true,
  solids: { caliper: { clearance: 'caliper' } },
};

function schema(quantity: Quantities) {
  const { coordinate, size, degrees } = quantity;
  return z.strictObject({
    ...fittedFields(quantity),
    kind: z.literal('caliper').describe('A brake caliper with its ears and bracket.'),
    clockingDeg: degrees(
      -360,
      360,
      "Angle about the wheel axis of the brake caliper's middle: 0 straight above the axis, 90 straight behind it. Use a protractor.",
    ),
    mount: z
      .strictObject({
        boltRadius: size(
          'Distance from the wheel axis to the centre of each mounting bolt. Use a square and a tape.',
        ),
        boltSpacing: size(
          'Distance between the centres of the two mounting bolts. Use a vernier caliper: from edge to same edge.',
        ),
        boltDiameter: size('Diameter of each mounting bolt. Use a vernier caliper.').default(12),
        boltLength: size(
          "Length of each mounting bolt, from the ears' outboard face to its inboard end. Use a vernier caliper.",
        ).default(40),
        earFace: coordinate(
          "Distance from the rotor's inboard friction face to the inboard face of the ears, positive inboard. Use a straight edge and a vernier caliper.",
        ),
        earThickness: size('Thickness of each ear along its bolt. Use a vernier caliper.').default(15),
        earDiameter: size('Outside diameter of each ear around its bolt. Use a vernier caliper.').default(28),
      })
      .describe('The two ears, and the bolts through them.'),
    body: z
      .strictObject({
        outboardDepth: size(
          "Distance from the rotor's outboard friction face to the outboard end of the body. Use a straight edge and a vernier caliper.",
        ),
        inboardDepth: size(
          "Distance from the rotor's inboard friction face to the inboard end of the body. Use a straight edge and a vernier caliper.",
        ),
        innerRadius: size('Distance from the wheel axis to the inner edge of the body. Use a tape.'),
        outerRadius: size('Distance from the wheel axis to the outermost place of the body. Use a tape.'),
        length: size(
          'Length of the body from end to end, square to the radius through its middle. Use a vernier caliper.',
        ),
        rotorGap: size(
          "Gap between the rotor's edge and the bridge over it, along the radius; the bridge fills the rest, out to the outer radius. Use a vernier caliper.",
        ).default(3),
        faceGap: size(
          'Gap between each friction face and the body, without the pads. Use a vernier caliper.',
        ).default(3),
      })
      .describe("The brake caliper's body, measured at its outermost places."),
    bracket: z
      .strictObject({
        thickness: size('Thickness of the bracket. Use a vernier caliper.'),
        inset: coordinate(
          "Distance along the wheel axis from the ears' inboard face to the bracket's outboard face, positive inboard; 0 if they touch. Use a vernier caliper.",
        ).default(0),
        innerRadius: size("Distance from the wheel axis to the bracket's edge nearest to it. Use a tape."),
        width: size(
          'Width of the bracket at its edge nearest to the wheel axis. Use a vernier caliper or a tape.',
        ),
      })
      .optional()
      .describe('Plate from the ears to the upright; leave out if the ears bolt to the upright itself.'),
    bleedScrew: z
      .strictObject({
        along: coordinate(
          "Distance from the brake caliper's middle to the screw, along the body's length; positive toward larger clocking. Use a tape.",
        ),
        radius: size('Distance from the wheel axis to the foot of the screw. Use a tape.'),
        depth: coordinate(
          "Distance from the rotor's inboard friction face to the screw, positive inboard. Use a straight edge and a vernier caliper.",
        ),
        directionDeg: degrees(
          -360,
          360,
          "Angle between the screw and the radius through the brake caliper's middle: 0 if it points straight outward, positive if it leans toward larger clocking. Use a protractor.",
        ).default(0),
        length: size('Length of the screw from its foot to its tip. Use a vernier caliper.').default(18),
        diameter: size('Outside diameter of the screw. Use a vernier caliper.').default(10),
      })
      .optional()
      .describe('Bleed screw; leave out for none.'),
  });
}
