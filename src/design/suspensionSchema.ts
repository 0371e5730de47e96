import { z } from 'zod';
import type { Layout } from '../layouts/layout.ts';
import { LAYOUTS } from '../layouts/registry.ts';
import type { Suspension } from '../layouts/suspension.ts';
import type { Quantities } from '../units/quantities.ts';
import { assumedList, fixedValues } from './partFields.ts';

type TypedLength = number | string;
type TypedPoint = [TypedLength, TypedLength, TypedLength];

/** A suspension as typed in a file. */
export type TypedSuspension = {
  layout: string;
  hardpoints: Record<string, TypedPoint>;
  damper?: { chassisMount: TypedPoint; armMount: TypedPoint; on: string } | undefined;
  camberDeg?: number;
  toeDeg?: number;
  hubFace?: TypedLength | undefined;
  hubFollowsWheel?: boolean | undefined;
  travel: { bump: TypedLength; droop: TypedLength };
  steering: Record<string, TypedLength | [number, number, number]>;
  assumed?: string[] | undefined;
  fixed?: boolean | string[] | undefined;
};

/** The suspension, by its layout. */
export function suspensionSchema(quantity: Quantities): z.ZodType<Suspension, TypedSuspension> {
  const [first, ...others] = LAYOUTS.map((layout) => suspensionOf(layout, quantity));
  // The fields of points and steering are known to their layout alone.
  return z.discriminatedUnion('layout', [first, ...others]) as unknown as z.ZodType<
    Suspension,
    TypedSuspension
  >;
}

function suspensionOf(layout: Layout, quantity: Quantities) {
  const { coordinate, extent, point, degrees } = quantity;
  const points = Object.entries(layout.points).map(([name, { description }]) => [name, point(description)]);
  return z.strictObject({
    layout: z.literal(layout.name).describe(layout.description),
    hardpoints: z
      .strictObject({
        ...(Object.fromEntries(points) as Record<string, ReturnType<typeof point>>),
        wheelCentre: point("Point where the spin axis meets the wheel's centre plane."),
      })
      .describe(
        "Points of the suspension at ride height, with static camber and toe. X forward of the front axle line, Y left of the vehicle's centre line, Z up from the ground.",
      ),
    damper: z
      .strictObject({
        chassisMount: point("Centre of the damper's mount on the chassis."),
        armMount: point("Centre of the damper's other mount, on the arm or upright."),
        on: z.enum(layout.damperOn).describe('Part that the arm mount is on.'),
      })
      .optional()
      .describe('Mounts of the damper; leave out for none.'),
    camberDeg: degrees(
      -15,
      15,
      'Static camber at ride height: angle of the wheel from vertical, positive if its top leans outboard. Use a protractor on the rim.',
    ).default(0),
    toeDeg: degrees(
      -10,
      10,
      'Static toe of this wheel alone at ride height, positive for toe-in. Use a protractor, or a tape to a string line along the vehicle.',
    ).default(0),
    hubFace: coordinate(
      "Distance along the wheel axis from the wheel centre to the hub's wheel-mounting face, positive outboard. Use a straight edge and a tape. If left out, the hub is placed so that the rim's centre plane passes through the wheel centre.",
    ).optional(),
    hubFollowsWheel: z
      .boolean()
      .optional()
      .describe(
        "Whether a change of wheel or spacer moves hub, brake and upright pad, with the rim's centre plane staying on the wheel centre. If so, leave out the hub face. If not, or if left out, the hub stays and the wheel moves.",
      ),
    travel: z
      .strictObject({
        bump: extent(
          'Rise of the wheel centre from ride height to full bump. Use a tape, with the spring out.',
        ),
        droop: extent(
          'Fall of the wheel centre from ride height to full droop. Use a tape, with the spring out.',
        ),
      })
      .describe('Travel of the wheel centre from ride height.'),
    steering: z.strictObject(layout.steering.fields(quantity)).describe(layout.steering.description),
    assumed: assumedList('the suspension'),
    fixed: fixedValues('the suspension', 'If left out, static camber and toe.'),
  });
}
