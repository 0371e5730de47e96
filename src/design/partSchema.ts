import { z } from 'zod';
import { boltsSchema } from './boltsSchema.ts';
import { jointSchema } from './jointSchema.ts';
import { line, type Quantities } from './quantities.ts';
import { tyreSchema, wheelSchema } from './wheelSchema.ts';

export const CARRIERS = [
  'chassis',
  'rack',
  'lowerArm',
  'upperArm',
  'upright',
  'wheel',
  'tieRod',
  'damperBody',
  'damperRod',
] as const;

/** Values that stand in the file though nobody measured them: see assumed.ts. */
export const assumedList = (owner: string) =>
  z
    .array(line())
    .optional()
    .describe(
      `Values of ${owner} that stand in the file though nobody measured them, by their paths from here: "hubMount" for all of a group, "hubMount.bore" for one.`,
    );

/** The entries that `parts` may hold, told apart by `kind`. Frames and senses are those of schema.ts. */
export function partSchema({ coordinate, size, extent, point, direction, degrees, count }: Quantities) {
  const common = {
    id: z.string().regex(/^[a-zA-Z][\w-]*$/, 'letters, digits, - and _, beginning with a letter'),
    label: line().min(1).optional().describe('What people call it; the id where absent.'),
    allowance: extent('Taken off every margin of this part: flex, play, measuring error.').default(0),
    assumed: assumedList('this part'),
  };
  const onItsOwn = {
    ...common,
    fitted: count(
      0,
      99,
      'Step of assembly in which it is put on, from 0 on; the usual one of its kind where absent.',
    ).optional(),
  };

  const wheel = wheelSchema({ coordinate, size, count }, onItsOwn);
  const tyre = tyreSchema({ size, extent }, common);

  const hub = z.strictObject({
    ...onItsOwn,
    kind: z.literal('hub'),
    flangeDiameter: size('Outside of the flange that the wheel bolts to.'),
    flangeThickness: size('Inboard from the wheel-mounting face.').default(12),
    pilotDiameter: size('Of the pilot that centres the wheel.').default(66),
    pilotLength: extent('How far the pilot stands out of the mounting face.').default(10),
    studCount: count(3, 12, 'Number of wheel studs.').default(5),
    boltCircle: size('Diameter of the circle through the wheel studs.').default(114.3),
    studDiameter: size('Of each wheel stud.').default(12),
    studLength: extent('Outboard end of the studs from the mounting face.').default(45),
    mountDepth: size(
      "Depth of the bearing housing's mounting face behind the wheel-mounting face, positive inboard.",
    ),
    housingDiameter: size('Outside of the bearing housing between its flange and the hub flange.'),
    mountFlangeDiameter: size("Of the bearing housing's round mounting flange."),
    mountFlangeThickness: size('Outboard from the mounting face of the bearing housing.').default(12),
    spigotDiameter: size(
      "Of the part of the housing that reaches inboard through the upright's bore.",
    ).default(60),
    spigotLength: extent('Inboard from the mounting face of the bearing housing.').default(0),
    mountBoltCount: count(2, 12, 'Number of bolts to the upright.').default(4),
    mountBoltCircle: size('Diameter of the circle through the bolts to the upright.').default(110),
    mountBoltDiameter: size('Of each bolt to the upright.').default(12),
    mountRectangle: z
      .strictObject({
        width: size('Between hole centres, fore and aft with clocking 0.'),
        height: size('Between hole centres, up and down with clocking 0.'),
      })
      .optional()
      .describe('Four bolts to the upright in a rectangle, in place of their count and circle.'),
    clockingDeg: degrees(
      -360,
      360,
      'Turn of the bolts to the upright about the wheel axis: 0 with one straight above, or the rectangle upright, positive toward the rear.',
    ).default(0),
  });

  const spacer = z.strictObject({
    ...onItsOwn,
    kind: z.literal('spacer'),
    place: z
      .enum(['wheel', 'upright'])
      .describe('Between hub (or rotor hat) and wheel, or between bearing housing and upright plate.'),
    thickness: size(),
    outerDiameter: size(),
    innerDiameter: size(),
  });

  const rotor = z.strictObject({
    ...onItsOwn,
    kind: z.literal('rotor'),
    diameter: size('Outside of the friction ring.'),
    thickness: size('Over both friction faces.'),
    innerDiameter: size('Inside diameter of the friction ring.').optional(),
    hatDiameter: size('Outside of the hat.'),
    hatThickness: size('Of the hat where it bolts to the hub.').default(7),
    height: size('Overall height, outer face of the hat to the inboard friction face.'),
    centreBore: size('Hole of the hat over the hub pilot.').default(68),
    mount: z
      .enum(['overStuds', 'behindFlange'])
      .default('overStuds')
      .describe('Over the studs and outside the hub flange, or behind the flange.'),
    hatBolts: z
      .strictObject({
        count: count(2, 16, 'Number of holes.'),
        circle: size('Diameter of the circle through them.'),
        clockingDeg: degrees(
          -360,
          360,
          'Turn about the wheel axis: 0 with one straight above, positive toward the rear.',
        ).default(0),
      })
      .optional()
      .describe("Holes for bolts that hold the hat to the hub's flange; absent where the studs hold it."),
  });

  const caliper = z.strictObject({
    ...onItsOwn,
    kind: z.literal('caliper'),
    clockingDeg: degrees(
      -360,
      360,
      "Turn about the wheel axis of the caliper's middle: 0 straight above, positive toward the rear.",
    ),
    mount: z.strictObject({
      boltRadius: size('Wheel axis to each mounting bolt.'),
      boltSpacing: size('Between the centres of the two bolts.'),
      boltDiameter: size().default(12),
      boltLength: size().default(40),
      earFace: coordinate(
        "Inboard face of the ears the bolts pass through, from the rotor's inboard friction face, positive inboard.",
      ),
      earThickness: size().default(15),
      earDiameter: size().default(28),
    }),
    body: z.strictObject({
      outboardDepth: size("From the rotor's outboard friction face outboard."),
      inboardDepth: size("From the rotor's inboard friction face inboard."),
      innerRadius: size('From the wheel axis.'),
      outerRadius: size('From the wheel axis.'),
      length: size('Across the body, square to the radius through its middle.'),
      rotorGap: size(
        "Between the rotor's edge and the bridge over it; the bridge is what is left up to the outer radius.",
      ).default(3),
      faceGap: size('Gap between each friction face and the body, pads left out.').default(3),
    }),
    bracket: z
      .strictObject({
        thickness: size(),
        inset: coordinate("Along the wheel axis from the ear's inboard face, positive inboard.").default(0),
        innerRadius: size('Where the bracket ends toward the wheel axis.'),
        width: size(),
      })
      .optional()
      .describe('A plate from the ears to the upright; absent where the ears bolt to the upright itself.'),
    bleedScrew: z
      .strictObject({
        along: coordinate("From the caliper's middle along its length, positive toward larger clocking."),
        radius: size('From the wheel axis to the foot of the screw.'),
        depth: coordinate("From the rotor's inboard friction face, positive inboard."),
        directionDeg: degrees(
          -360,
          360,
          "Angle from the caliper's outward radial direction, positive toward larger clocking.",
        ).default(0),
        length: size().default(18),
        diameter: size().default(10),
      })
      .optional(),
  });

  const upright = z.strictObject({
    ...onItsOwn,
    kind: z.literal('upright'),
    plateThickness: size(),
    hubMount: z.strictObject({
      diameter: size('Round pad that the bearing housing (and its spacer) bolts to.'),
      bore: size(),
    }),
    legWidth: size('Width of the legs that run from the hub mount to each joint.'),
    kickOutRadius: size(
      'Radius from the wheel axis at which the legs leave the plane of the hub mount toward the joints.',
    ),
    boxDepth: extent('Depth of the boxed legs along the wheel axis; 0 for a single plate.').default(0),
    boxWall: size('Wall of the boxing.').default(3),
    steeringArm: z.strictObject({ width: size(), thickness: size() }),
    jointMounts: z
      .strictObject({ diameter: size(), height: size() })
      .describe("Bosses that hold the joints' bolts or tapers, axis along the joint's axis."),
    jointGap: extent(
      "How far each boss stands from its joint's centre, along the joint's axis (clevis or bolt side).",
    ).default(0),
  });

  const controlArm = z.strictObject({
    ...onItsOwn,
    kind: z.literal('controlArm'),
    arm: z.enum(['lower', 'upper']),
    tubeDiameter: size(),
    pivotDiameter: size('Bushing or joint housing at each inner pivot, axis along the pivot line.'),
    pivotLength: size(),
    cupDiameter: size('Cup that holds the outer joint.'),
    cupHeight: size(),
    brace: z
      .strictObject({ at: z.number().min(0.05).max(0.95), diameter: size() })
      .optional()
      .describe(
        'Cross-brace between the tubes, as a fraction of the way from pivots to joint; absent for none.',
      ),
    gusset: z
      .strictObject({ thickness: size(), length: size() })
      .optional()
      .describe('Plate in the corner between the tubes at the outer joint; absent for none.'),
  });

  const joint = jointSchema({ size, direction, degrees }, onItsOwn);

  const tieRod = z.strictObject({
    ...onItsOwn,
    kind: z.literal('tieRod'),
    tubeDiameter: size(),
    endGap: size("Bare length left at each end for the rod ends' shanks, from the joint's centre.").default(
      45,
    ),
  });

  const damper = z.strictObject({
    ...onItsOwn,
    kind: z.literal('damper'),
    bodyDiameter: size(),
    bodyLength: size("From the centre of the body's mount."),
    rodDiameter: size(),
    closedLength: size('Between the centres of the mounts, fully compressed.').optional(),
    openLength: size('Between the centres of the mounts, fully extended.').optional(),
    bodyEnd: z.enum(['chassis', 'arm']).default('arm'),
    eyeDiameter: size().default(36),
    eyeWidth: size().default(25),
    eyeDirection: direction('Direction of the mounting bolts at ride height, vehicle axes.').default([
      1, 0, 0,
    ]),
    spring: z
      .strictObject({
        outerDiameter: size(),
        seat: size("From the centre of the body's mount to the spring seat on the body."),
      })
      .optional(),
  });

  const bolts = boltsSchema({ size, degrees }, onItsOwn);

  const rides = { carrier: z.enum(CARRIERS).default('chassis') };

  const tube = z.strictObject({
    ...onItsOwn,
    ...rides,
    kind: z.literal('tube'),
    from: point(),
    to: point(),
    diameter: size(),
  });

  const box = z.strictObject({
    ...onItsOwn,
    ...rides,
    kind: z.literal('box'),
    centre: point(),
    size: z.tuple([size(), size(), size()]).describe("Along the box's own x, y, z."),
    rollDeg: degrees(-360, 360, 'Turn about vehicle X through the centre, before pitch and yaw.').default(0),
    pitchDeg: degrees(-360, 360, 'Turn about vehicle Y, after roll.').default(0),
    yawDeg: degrees(-360, 360, 'Turn about vehicle Z, after pitch.').default(0),
  });

  const plate = z.strictObject({
    ...onItsOwn,
    ...rides,
    kind: z.literal('plate'),
    outline: z.array(point()).min(3).describe('Corners in order, in one plane, on one face of the plate.'),
    thickness: size('To the side from which the corners run anticlockwise.'),
  });

  return z.discriminatedUnion('kind', [
    wheel,
    tyre,
    hub,
    spacer,
    rotor,
    caliper,
    upright,
    controlArm,
    joint,
    tieRod,
    damper,
    bolts,
    tube,
    box,
    plate,
  ]);
}
