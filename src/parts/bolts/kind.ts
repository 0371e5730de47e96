import { z } from 'zod';
import { BOLT_JOINS, BOLT_TOOLS } from '../../design/fasteners/boltFields.ts';
import { fittedFields } from '../../design/partFields.ts';
import { line, type Quantities } from '../../units/quantities.ts';
import type { PartKindRecord } from '../partKind.ts';

/** Usual steps of assembly, by what the bolts join. */
const STEPS = { hubMount: 1, rotor: 2, caliperMount: 2, wheel: 3 };

export const bolts: PartKindRecord<typeof schema, 'bolts'> = {
  name: 'Bolts',
  schema,
  step: ({ joins }) => STEPS[joins],
  only: { field: 'joins', role: (joins) => `the bolts of the ${joins}` },
  needs: [],
  sitsOn: [],
  order: [],
  bought: { free: [] },
  isClamped: true,
  solids: { bolts: { clearance: 'atHub' } },
};

function schema(quantity: Quantities) {
  const { size, degrees } = quantity;
  return z.strictObject({
    ...fittedFields(quantity),
    kind: z.literal('bolts').describe("A set of equal bolts, or of the nuts on the hub's studs."),
    joins: z
      .enum(BOLT_JOINS)
      .describe(
        "Hub mount: bearing housing to upright. Caliper mount: ears to bracket or upright. Rotor: its hat to the hub. Wheel: nuts on the hub's studs. The places of the holes are those of that part.",
      ),
    size: line().describe(
      'Thread size: "M12", "1/2 in" or "7/16-20". Use a vernier caliper over the thread.',
    ),
    head: z
      .enum(['hex', 'socketHead'])
      .default('hex')
      .describe('Form of the head: hexagon, or round with a hexagon socket. Nuts on studs have none.'),
    headSide: z
      .enum(['inboard', 'outboard'])
      .default('inboard')
      .describe('Side of the clamped parts on which the heads are.'),
    length: size(
      'Length of each bolt from under the head to its tip. Use a vernier caliper. If left out: two threads beyond the nut or, without a nut, to the end of the clamped parts.',
    ).optional(),
    nut: z
      .boolean()
      .default(false)
      .describe('Whether each bolt has a nut. Without one, it screws into the last part that it holds.'),
    washers: z.boolean().default(true).describe('Whether there is a washer under each head and each nut.'),
    headAcross: size(
      'Width of a hex head across its flats, or diameter of a socket head. Use a vernier caliper. If left out, from the table for the size.',
    ).optional(),
    headHeight: size(
      'Height of the head. Use a vernier caliper. If left out, from the table for the size.',
    ).optional(),
    counterboreDiameter: size(
      'Diameter of the recess for each head. Use a vernier caliper. Leave out if the heads are on the face.',
    ).optional(),
    counterboreDepth: size(
      'Depth of the recess for each head, from the face of the part to the seat under the head. Use a vernier caliper.',
    ).optional(),
    nutAcross: size(
      'Width of the nut across its flats. Use a vernier caliper. If left out, from the table for the size.',
    ).optional(),
    nutHeight: size(
      'Height of the nut. Use a vernier caliper. If left out, from the table for the size.',
    ).optional(),
    washerDiameter: size(
      'Outside diameter of the washer. Use a vernier caliper. If left out, from the table for the size.',
    ).optional(),
    washerThickness: size(
      'Thickness of the washer. Use a vernier caliper. If left out, from the table for the size.',
    ).optional(),
    tool: z.enum(BOLT_TOOLS).default('socket').describe('Tool that turns the bolts.'),
    toolOn: z
      .enum(['head', 'nut', 'both'])
      .default('both')
      .describe('Ends of the bolts that the tool must reach.'),
    toolDiameter: size(
      "Outside diameter of the socket, or width of the wrench's head. Use a vernier caliper. If left out, the largest usual one.",
    ).optional(),
    toolLength: size(
      "Length of the socket, or distance from the bolt to the end of the wrench's handle. Use a tape. If left out, a usual length is assumed.",
    ).optional(),
    driveDiameter: size(
      'Diameter of the extension that drives the socket. Use a vernier caliper. If left out, that of a 1/2 in drive.',
    ).optional(),
    driveLength: size(
      'Length of the extension that drives the socket, beyond the socket. Use a tape. If left out, the shortest of a 1/2 in drive.',
    ).optional(),
    toolThickness: size(
      "Thickness of the wrench's head along the bolt. Use a vernier caliper. If left out, the largest usual one.",
    ).optional(),
    handleWidth: size(
      "Width of the wrench's handle. Use a vernier caliper. If left out, a usual width is assumed.",
    ).optional(),
    handleDeg: degrees(
      -360,
      360,
      'Direction of the handle in the middle of its swing: 0 straight away from the wheel axis, positive toward larger clocking. Use a protractor. If left out, 0, and the check of the bolts tries directions all around.',
    ).optional(),
    swingDeg: degrees(
      1,
      180,
      'Swing of the handle from one grip to the next; 30 if left out. Use a protractor.',
    ).optional(),
  });
}
