/**
 * The shape of a corner file, version 1, as zod schemas. `cornerSchema(readLength)` turns the values as typed into plain
 * numbers: every length in millimetres, every `...Deg` in degrees, everything else as written. Each description is the line
 * of help shown beside the field.
 *
 * Frames of the fields:
 * - vehicle: ISO 8855 at ride height, X forward, Y left, Z up; the file always holds a LEFT corner.
 * - wheel axis: origin at the wheel-centre hardpoint, y along the spin axis outboard, z up, x forward.
 * - depth: along the wheel axis from the hub's wheel-mounting face, positive outboard.
 * - clocking: angle about the wheel axis, 0 = straight above it, positive toward the rear.
 */
import { z } from 'zod';
import type { PartKind } from '../parts/kinds.ts';
import { partSchema } from '../parts/partSchema.ts';
import { assetName, date, line, lines, quantities, type ReadLengthMm } from '../units/quantities.ts';
import { suspensionSchema } from './suspensionSchema.ts';

export type { Carrier, Hardpoints, JointPlace, Suspension } from '../layouts/suspension.ts';
export type { PartKind, ReadLengthMm };

export const FORMAT = 'daylight.corner';
export const VERSION = 1;

/**
 * Builds the schema of a corner file. `readLengthMm` reads lengths typed as text. `originHeightMm`: the file's own
 * `originHeight`; the output has Z of every point from the ground.
 */
export function cornerSchema(readLengthMm: ReadLengthMm, originHeightMm = 0) {
  const quantity = quantities(readLengthMm, originHeightMm);
  const { coordinate, degrees, size, extent, point, direction, angleError } = quantity;

  const zone = z.discriminatedUnion('shape', [
    z.strictObject({
      shape: z.literal('sphere').describe('A ball about a point.'),
      centre: point('Centre of the zone; put it on the point about which the two parts turn.'),
      radius: size('Radius of the sphere. Choose it: it must cover the intended contact and no more.'),
    }),
    z.strictObject({
      shape: z.literal('slab').describe('A round disc about an axis.'),
      centre: point('Centre of the zone; put it on the axis about which the two parts turn.'),
      axis: direction('Direction of the axis of the disc, square to its faces.'),
      thickness: size(
        'Whole thickness of the disc. Choose it: it must cover the intended contact and no more.',
      ),
      radius: size('Radius of the disc. Choose it: it must cover the intended contact and no more.'),
    }),
  ]);

  const pair = z
    .strictObject({
      between: z
        .tuple([line().describe('Id of the one part.'), line().describe('Id of the other part.')])
        .describe('Ids of two parts, in either order.'),
      target: extent(
        'Least clearance that the pair must keep. Choose it; if left out, the default for the two kinds of part.',
      ).optional(),
      check: z.boolean().default(true).describe('Whether the pair is checked. If not, give the reason.'),
      why: line().min(1).optional().describe('Reason why the pair is not checked; printed in the report.'),
      zone: zone
        .optional()
        .describe(
          'Region where the two parts are meant to touch, in addition to joints and bolted faces. It moves with both parts. Coordinates at ride height.',
        ),
    })
    .describe('Rule for one pair of parts.');

  const mockup = z
    .strictObject({
      between: z
        .tuple([line().describe('Id of the one part.'), line().describe('Id of the other part.')])
        .describe('Ids of the two parts between which the gap is, in either order.'),
      travel: coordinate(
        'Height of the wheel centre above ride height as the gap was measured, negative in droop. Use a tape.',
      ),
      rack: coordinate(
        'Rack travel from straight ahead as the gap was measured, positive toward the lock that turns the wheel outboard. Use a tape. Straight ahead if left out.',
      ).optional(),
      steerDeg: degrees(
        -90,
        90,
        'Steering angle from straight ahead as the gap was measured, positive outboard, for a layout that is steered by an angle. Use a protractor. Straight ahead if left out.',
      ).optional(),
      gap: extent(
        'Least gap between the two parts, 0 if they touch. Use feeler gauges, or drills as gauges.',
      ),
      on: date().optional().describe('Day of the measurement.'),
      by: line().min(1).optional().describe('Who measured.'),
      note: lines().optional().describe('Your notes on the measurement.'),
    })
    .describe('A gap measured on the mock-up, at one pose.');

  const vehicle = z
    .strictObject({
      wheelbase: size(
        'Distance between the lines of the front and the rear axle, for Ackermann, turning circle and anti-dive. Use a tape.',
      ).optional(),
      frontBrakePercent: z
        .number()
        .min(0)
        .max(100)
        .optional()
        .describe(
          'Share of the brake force at the front axle, percent, for anti-dive. Take it from the brake design.',
        ),
      centreOfGravityHeight: size(
        "Height of the vehicle's centre of gravity above the ground at ride height, for anti-dive. Weigh the vehicle with one axle raised, and use a tape.",
      ).optional(),
    })
    .describe('What is known of the whole vehicle. No clearance depends on it.');

  const driveShaft = z
    .strictObject({
      inner: point('Centre of the inner joint, which stays in place.'),
      innerDirection: direction(
        'Direction of the shaft that drives the inner joint, in either sense.',
      ).default([0, 1, 0]),
      outer: point('Centre of the outer joint at ride height. It moves with the upright.'),
      innerAllowedDeg: degrees(
        0,
        90,
        'Largest angle that the inner joint can take. From its data sheet.',
      ).optional(),
      innerUseDeg: degrees(
        0,
        90,
        'Largest angle of the inner joint that you allow in use, if it is less. Choose it.',
      ).optional(),
      outerAllowedDeg: degrees(
        0,
        90,
        'Largest angle that the outer joint can take. From its data sheet.',
      ).optional(),
      outerUseDeg: degrees(
        0,
        90,
        'Largest angle of the outer joint that you allow in use, if it is less. Choose it.',
      ).optional(),
      plungeIn: extent(
        'How much the distance between the joints can shrink from ride height. Use a tape: push the shaft in until it stops.',
      ).optional(),
      plungeOut: extent(
        'How much the distance between the joints can grow from ride height. Use a tape: pull the shaft out until it stops.',
      ).optional(),
    })
    .describe('Drive shaft: its angles and its plunge are checked. It has no solid.');

  const brakeHose = z
    .strictObject({
      chassisEnd: point('Centre of the end that is fixed to the chassis.'),
      uprightEnd: point('Centre of the other end at ride height. It moves with the upright.'),
      length: size('Free length of the hose between its ends. Use a tape.').optional(),
      slack: extent('Length that the hose keeps beyond the straight distance between its ends. Choose it.'),
    })
    .describe('Brake hose: its length is checked. It has no solid.');

  return z.strictObject({
    $schema: line().optional().describe('Address of the JSON Schema of this format, for editors.'),
    format: z.literal(FORMAT).describe('Marks the file as a corner file.'),
    version: z.literal(VERSION).describe('Version of the file format.'),
    name: line().min(1).describe('Name of the corner, shown on screen and in the report.'),
    note: lines().optional().describe('Your notes on the corner; several lines are allowed.'),
    side: z
      .enum(['left', 'right'])
      .default('left')
      .describe(
        'Side of the vehicle that is shown and exported. Type the coordinates of a left corner for either side.',
      ),
    unit: z
      .enum(['mm', 'in'])
      .optional()
      .describe('Unit of a length typed as text without a unit. A plain number is always mm.'),
    originHeight: extent(
      'Height above the ground, at ride height, of the level from which you measured Z of every point, such as the centre of the hub. Use a tape. If left out, Z is measured from the ground.',
    ).optional(),
    measuredTo: z
      .strictObject({
        length: size(
          '± of each measured length that has none of its own. Choose it: 1/32 in for a tape, 0.1 mm for a vernier caliper.',
        ).optional(),
        angle: angleError('± of each measured angle. Choose it: 0.5° for a protractor.').optional(),
      })
      .optional()
      .describe('How closely you have measured the parts and the suspension. Assumed values have no ±.'),
    assets: z
      .array(assetName().describe('Name of a file in the folder of the corner file.'))
      .optional()
      .describe('Files beside the corner file that belong to the corner. They move and are saved with it.'),
    suspension: suspensionSchema(quantity).describe('Points, damper mounts, alignment, travel and steering.'),
    vehicle: vehicle.optional(),
    driveShaft: driveShaft.optional(),
    brakeHose: brakeHose.optional(),
    parts: z.array(partSchema(quantity)).min(1).describe('The parts of the corner.'),
    pairs: z.array(pair).default([]).describe('Rules for single pairs; other pairs keep their defaults.'),
    mockup: z
      .array(mockup)
      .optional()
      .describe(
        'Gaps measured on the mock-up. They are compared with the computed ones and change none of them.',
      ),
  });
}

/** A corner as read: lengths in mm, angles in degrees where the name says so, defaults filled in. */
export type Corner = z.output<ReturnType<typeof cornerSchema>>;
export type PartEntry = Corner['parts'][number];
/** Entry of one kind: `Entry<'rotor'>`. */
export type Entry<K extends PartKind> = Extract<PartEntry, { kind: K }>;
export type MockupEntry = NonNullable<Corner['mockup']>[number];
export type DriveShaft = NonNullable<Corner['driveShaft']>;
export type BrakeHose = NonNullable<Corner['brakeHose']>;
export type PairEntry = Corner['pairs'][number];
export type ZoneEntry = NonNullable<PairEntry['zone']>;
