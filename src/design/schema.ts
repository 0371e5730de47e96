/**
 * The shape of a corner file, version 1, as zod schemas. `cornerSchema(readLength)` turns what a person typed into
 * plain numbers: every length in millimetres, every `...Deg` in degrees, everything else as written.
 *
 * Frames that fields speak of:
 * - vehicle: ISO 8855 at ride height, X forward, Y left, Z up; a corner is always written as a LEFT corner.
 * - wheel axis: origin at the wheel-centre hardpoint, y along the spin axis outboard, z up, x forward.
 * - depth: along the wheel axis from the hub's wheel-mounting face, positive outboard.
 * - clocking: about the wheel axis, 0 = straight above it, positive toward the rear.
 */
import { z } from 'zod';
import { JOINT_PLACES } from './jointSchema.ts';
import { assumedList, CARRIERS, partSchema } from './partSchema.ts';
import { line, lines, quantities, type ReadLengthMm } from './quantities.ts';

export { CARRIERS, JOINT_PLACES, type ReadLengthMm };
export type Carrier = (typeof CARRIERS)[number];
export type JointPlace = (typeof JOINT_PLACES)[number];

export const FORMAT = 'daylight.corner';
export const VERSION = 1;

/**
 * Builds the schema of a corner file whose text lengths are read by `readLengthMm`. Input lengths are mm or text.
 * `originHeightMm`: the file's own `originHeight`; points come out with Z from the ground.
 */
export function cornerSchema(readLengthMm: ReadLengthMm, originHeightMm = 0) {
  const quantity = quantities(readLengthMm, originHeightMm);
  const { coordinate, size, extent, point, direction, degrees } = quantity;

  const suspension = z.strictObject({
    layout: z.literal('doubleWishboneRack'),
    hardpoints: z
      .strictObject({
        lowerArmFront: point('Front pivot of the lower arm on the chassis.'),
        lowerArmRear: point('Rear pivot of the lower arm on the chassis.'),
        lowerJoint: point('Centre of the joint between lower arm and upright.'),
        upperArmFront: point('Front pivot of the upper arm on the chassis.'),
        upperArmRear: point('Rear pivot of the upper arm on the chassis.'),
        upperJoint: point('Centre of the joint between upper arm and upright.'),
        tieRodInner: point('Centre of the joint between rack and tie rod.'),
        tieRodOuter: point('Centre of the joint between tie rod and upright.'),
        wheelCentre: point("Where the spin axis meets the wheel's centre plane."),
      })
      .describe('Vehicle axes at ride height, static camber and toe included.'),
    damper: z
      .strictObject({
        chassisMount: point('Centre of the mount on the chassis.'),
        armMount: point('Centre of the mount on the member that on names.'),
        on: z.enum(['lowerArm', 'upperArm', 'upright']),
      })
      .optional(),
    camberDeg: degrees(-15, 15, 'Top of the wheel outboard positive.').default(0),
    toeDeg: degrees(-10, 10, 'Toe-in positive, of this wheel alone.').default(0),
    hubFace: coordinate(
      "The hub's wheel-mounting face along the wheel axis from the wheel-centre hardpoint, positive outboard. Where absent, the place that puts the wheel's centre plane on the hardpoint.",
    ).optional(),
    hubFollowsWheel: z
      .boolean()
      .optional()
      .describe(
        "If true, the wheel's centre plane stays on the wheel-centre hardpoint, and a change of wheel or spacers moves hub, brake and upright pad; hubFace must then be absent. If absent or false, the hub stays and the wheel moves.",
      ),
    travel: z.strictObject({
      bump: extent('Rise of the wheel centre from ride height to full bump.'),
      droop: extent('Fall of the wheel centre from ride height to full droop.'),
    }),
    steering: z.strictObject({
      rackOutboard: extent("Rack travel from straight ahead that turns the wheel's front edge outboard."),
      rackInboard: extent("Rack travel from straight ahead that turns the wheel's front edge inboard."),
      rackDirection: direction('The line the rack slides along, either way round.').default([0, 1, 0]),
    }),
    assumed: assumedList('the suspension'),
  });

  /** Rides with both parts: its centre belongs on the point or the axis about which they turn. */
  const zone = z.discriminatedUnion('shape', [
    z.strictObject({ shape: z.literal('sphere'), centre: point(), radius: size() }),
    z.strictObject({
      shape: z.literal('slab'),
      centre: point(),
      axis: direction(),
      thickness: size(),
      radius: size(),
    }),
  ]);

  const pair = z.strictObject({
    between: z.tuple([line(), line()]).describe('Ids of two parts, in either order.'),
    target: extent('Least clearance wanted, in place of the default for the two kinds.').optional(),
    check: z.boolean().default(true).describe('Whether the pair is checked; false needs why.'),
    why: line().min(1).optional().describe('Why the pair is not checked; stands in the report.'),
    zone: zone
      .optional()
      .describe(
        'Where contact is intended, besides the joints and bolted faces that are known. Coordinates at ride height.',
      ),
  });

  return z.strictObject({
    $schema: line().optional(),
    format: z.literal(FORMAT),
    version: z.literal(VERSION),
    name: line().min(1),
    note: lines().optional(),
    side: z
      .enum(['left', 'right'])
      .default('left')
      .describe('Which side of the vehicle; coordinates are those of a left corner either way.'),
    unit: z
      .enum(['mm', 'in'])
      .optional()
      .describe('Unit of a length typed as text without one. A plain number is mm either way.'),
    originHeight: extent(
      "Height above the ground, at ride height, of the level from which the file measures Z of every point: the height of the hub's centre for points that were measured from there. Where absent, Z is measured from the ground.",
    ).optional(),
    suspension,
    parts: z.array(partSchema(quantity)).min(1),
    pairs: z.array(pair).default([]),
  });
}

/** A corner as read: lengths in mm, angles in degrees where the name says so, defaults filled in. */
export type Corner = z.output<ReturnType<typeof cornerSchema>>;
export type Suspension = Corner['suspension'];
export type Hardpoints = Suspension['hardpoints'];
export type PartEntry = Corner['parts'][number];
export type PartKind = PartEntry['kind'];
/** The entry of one kind: `Entry<'rotor'>`. */
export type Entry<K extends PartKind> = Extract<PartEntry, { kind: K }>;
export type PairEntry = Corner['pairs'][number];
export type ZoneEntry = NonNullable<PairEntry['zone']>;
