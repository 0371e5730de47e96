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

/** Reads a length as typed; throws an Error whose message says what is wrong and what would be right. */
export type ReadLengthMm = (typed: string) => number;

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
export type Carrier = (typeof CARRIERS)[number];

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
export type JointPlace = (typeof JOINT_PLACES)[number];

export const FORMAT = 'daylight.corner';
export const VERSION = 1;

/** Builds the schema of a corner file whose text lengths are read by `readLengthMm`. Input lengths are mm or text. */
export function cornerSchema(readLengthMm: ReadLengthMm) {
  const length = (check: (mm: number) => string | undefined) =>
    z
      .union([z.number(), z.string()], 'a length: a number of millimetres, or text such as "5 1/2 in ±1/32"')
      .transform((typed, ctx) => {
        let mm: number;
        try {
          mm = typeof typed === 'number' ? typed : readLengthMm(typed);
        } catch (error) {
          ctx.issues.push({ code: 'custom', message: (error as Error).message, input: typed });
          return z.NEVER;
        }
        const complaint = check(mm);
        if (complaint === undefined) return mm;
        ctx.issues.push({ code: 'custom', message: complaint, input: typed });
        return z.NEVER;
      })
      .meta({ quantity: 'length' });

  /** A length of either sign. */
  const coordinate = () =>
    length((mm) => (Math.abs(mm) < 1e5 ? undefined : 'must be less than 100 m either way'));
  /** A length above zero. */
  const size = () =>
    length((mm) => (mm > 0 && mm < 1e5 ? undefined : 'must be more than 0 and less than 100 m'));
  /** A length of zero or more. */
  const extent = () =>
    length((mm) => (mm >= 0 && mm < 1e5 ? undefined : 'must be 0 or more and less than 100 m'));
  const point = () => z.tuple([coordinate(), coordinate(), coordinate()]);
  /** A direction: three plain numbers, any length above zero. */
  const direction = () =>
    z
      .tuple([z.number(), z.number(), z.number()])
      .refine(([x, y, zz]) => Math.hypot(x, y, zz) > 1e-9, 'a direction needs a length above 0');
  const degrees = (least: number, most: number) => z.number().min(least).max(most);
  const count = (least: number, most: number) => z.int().min(least).max(most);

  const common = {
    id: z.string().regex(/^[a-zA-Z][\w-]*$/, 'letters, digits, - and _, beginning with a letter'),
    /** What people call it; the id where absent. */
    label: z.string().min(1).optional(),
    /** Taken off every margin of this part: flex, play, measuring error. */
    allowance: extent().default(0),
  };

  const wheel = z.strictObject({
    ...common,
    kind: z.literal('wheel'),
    /** Diameter code of the rim, inches as a plain number: 17 for a 17-inch rim. */
    diameterCode: z.number().min(8).max(30),
    /** Between the bead seats, as sold: "9 in". */
    width: size(),
    /** Hub mounting face to rim centre plane, positive with the face outboard. Give this or `backspacing`. */
    offset: coordinate().optional(),
    /** Hub mounting face to the inboard edge of the inboard flange. Give this or `offset`. */
    backspacing: coordinate().optional(),
    /** Thickness of each rim flange beyond the bead seat: half an inch where nobody says otherwise. */
    lip: size().default(12.7),
    flangeHeight: size().default(17.5),
    /** Wall thickness of the barrel. */
    wall: size().default(4),
    /** Depth of the drop centre below the bead seat, on the tyre side. */
    dropDepth: size().default(17.3),
    /** Middle of the drop centre, from the rim's centre plane, positive outboard. */
    dropPlace: coordinate().default(0),
    dropWidth: size().default(60),
    /**
     * Inside of the barrel as measured, inboard edge first: depth from the hub mounting face (inboard negative) and
     * inside radius. Replaces the standard contour on the inside where given.
     */
    innerBarrel: z
      .array(z.strictObject({ depth: coordinate(), radius: size() }))
      .min(2)
      .optional(),
    /** Thickness of the centre pad at the bolt circle, from the mounting face outboard. */
    padThickness: size().default(12),
    padDiameter: size().default(170),
    /** The face of the spokes at the rim, inboard surface, measured as depth from the mounting face. */
    spokeDepth: coordinate().default(25),
    spokeThickness: size().default(14),
    spokes: count(0, 40).default(0),
    /** Width of one spoke; the disc is solid where `spokes` is 0. */
    spokeWidth: size().default(45),
    boltCount: count(3, 12).default(5),
    boltCircle: size().default(114.3),
    boltHole: size().default(14),
    centreBore: size().default(70),
  });

  const tyre = z.strictObject({
    ...common,
    kind: z.literal('tyre'),
    /** "205/55R16", "LT265/70R17" or "37x12.5R17LT". */
    designation: z.string(),
    /** As measured, mounted and inflated; overrides the designation. */
    overallDiameter: size().optional(),
    sectionWidth: size().optional(),
    treadWidth: size().optional(),
    /** Growth in service of the radius and of each side, added all round to the checked solid. */
    growth: extent().default(0),
  });

  const hub = z.strictObject({
    ...common,
    kind: z.literal('hub'),
    flangeDiameter: size(),
    flangeThickness: size().default(12),
    pilotDiameter: size().default(66),
    /** How far the pilot stands out of the mounting face. */
    pilotLength: extent().default(10),
    studCount: count(3, 12).default(5),
    boltCircle: size().default(114.3),
    studDiameter: size().default(12),
    /** Outboard end of the studs from the mounting face. */
    studLength: extent().default(45),
    /** The bearing housing that does not turn: depth of its mounting face behind the wheel-mounting face. */
    mountDepth: size(),
    housingDiameter: size(),
    /** Housing's mounting flange: round, its thickness forward (outboard) of the mounting face. */
    mountFlangeDiameter: size(),
    mountFlangeThickness: size().default(12),
    /** Part of the housing that reaches inboard through the upright's bore. */
    spigotDiameter: size().default(60),
    spigotLength: extent().default(0),
    /** Inboard bolt pattern, to the upright. */
    mountBoltCount: count(2, 12).default(4),
    mountBoltCircle: size().default(110),
    mountBoltDiameter: size().default(12),
    clockingDeg: degrees(-360, 360).default(0),
  });

  const spacer = z.strictObject({
    ...common,
    kind: z.literal('spacer'),
    /** Between hub (or rotor hat) and wheel, or between bearing housing and upright plate. */
    place: z.enum(['wheel', 'upright']),
    thickness: size(),
    outerDiameter: size(),
    innerDiameter: size(),
  });

  const rotor = z.strictObject({
    ...common,
    kind: z.literal('rotor'),
    diameter: size(),
    thickness: size(),
    /** Inside diameter of the friction ring. */
    innerDiameter: size().optional(),
    hatDiameter: size(),
    hatThickness: size().default(7),
    /** Overall height, outer face of the hat to the inboard friction face. */
    height: size(),
    centreBore: size().default(68),
    /** Over the studs and outside the hub flange, or behind the flange. */
    mount: z.enum(['overStuds', 'behindFlange']).default('overStuds'),
  });

  const caliper = z.strictObject({
    ...common,
    kind: z.literal('caliper'),
    /** Turn about the wheel axis of the caliper's middle: 0 straight above, positive toward the rear. */
    clockingDeg: degrees(-360, 360),
    mount: z.strictObject({
      /** Wheel axis to each mounting bolt. */
      boltRadius: size(),
      /** Between the centres of the two bolts. */
      boltSpacing: size(),
      boltDiameter: size().default(12),
      boltLength: size().default(40),
      /** Inboard face of the ears the bolts pass through, from the rotor's inboard friction face, positive inboard. */
      earFace: coordinate(),
      earThickness: size().default(15),
      earDiameter: size().default(28),
    }),
    body: z.strictObject({
      /** From the rotor's outboard friction face outboard, and from its inboard friction face inboard. */
      outboardDepth: size(),
      inboardDepth: size(),
      /** From the wheel axis. */
      innerRadius: size(),
      outerRadius: size(),
      /** Across the body, square to the radius through its middle. */
      length: size(),
      /** Thickness of the bridge over the rotor's edge is what is left between rotor + this gap and the outer radius. */
      rotorGap: size().default(3),
      /** Gap between each friction face and the body, pads left out. */
      faceGap: size().default(3),
    }),
    /** A plate from the ears to the upright; absent where the ears bolt to the upright itself. */
    bracket: z
      .strictObject({
        thickness: size(),
        /** Along the wheel axis from the ear's inboard face, positive inboard. */
        inset: coordinate().default(0),
        /** Where the bracket ends toward the wheel axis. */
        innerRadius: size(),
        width: size(),
      })
      .optional(),
    bleedScrew: z
      .strictObject({
        /** In the caliper's own frame: along its length (positive toward larger clocking), radius, and depth inboard
         * of the rotor's inboard friction face. */
        along: coordinate(),
        radius: size(),
        depth: coordinate(),
        /** Angle from the caliper's outward radial direction, positive toward larger clocking. */
        directionDeg: degrees(-360, 360).default(0),
        length: size().default(18),
        diameter: size().default(10),
      })
      .optional(),
  });

  const upright = z.strictObject({
    ...common,
    kind: z.literal('upright'),
    plateThickness: size(),
    hubMount: z.strictObject({
      /** Round pad that the bearing housing (and its spacer) bolts to. */
      diameter: size(),
      bore: size(),
    }),
    /** Width of the legs that run from the hub mount to each joint. */
    legWidth: size(),
    /** Radius from the wheel axis at which the legs leave the plane of the hub mount toward the joints. */
    kickOutRadius: size(),
    /** Depth of the boxed legs along the wheel axis; 0 for a single plate. */
    boxDepth: extent().default(0),
    /** Wall of the boxing. */
    boxWall: size().default(3),
    steeringArm: z.strictObject({ width: size(), thickness: size() }),
    /** Bosses that hold the joints' bolts or tapers, axis along the joint's axis. */
    jointMounts: z.strictObject({ diameter: size(), height: size() }),
    /** How far each boss stands from its joint's centre, along the joint's axis (clevis or bolt side). */
    jointGap: extent().default(0),
  });

  const controlArm = z.strictObject({
    ...common,
    kind: z.literal('controlArm'),
    arm: z.enum(['lower', 'upper']),
    tubeDiameter: size(),
    /** Bushing or joint housing at each inner pivot, axis along the pivot line. */
    pivotDiameter: size(),
    pivotLength: size(),
    /** Cup that holds the outer joint. */
    cupDiameter: size(),
    cupHeight: size(),
    /** Cross-brace between the tubes, as a fraction of the way from pivots to joint; absent for none. */
    brace: z.strictObject({ at: z.number().min(0.05).max(0.95), diameter: size() }).optional(),
    /** Plate in the corner between the tubes at the outer joint; absent for none. */
    gusset: z.strictObject({ thickness: size(), length: size() }).optional(),
  });

  const joint = z.strictObject({
    ...common,
    kind: z.literal('joint'),
    at: z.enum(JOINT_PLACES),
    form: z.enum(['ball', 'cup', 'rodEnd']),
    ballDiameter: size(),
    /** Outside of the cup, or of the rod end's head. */
    housingDiameter: size(),
    /** Along the joint's bolt. */
    housingWidth: size(),
    boltDiameter: size(),
    /** Whole length of bolt, spacers and nuts, centred on the joint. */
    boltLength: size(),
    /** Direction of the bolt at ride height, vehicle axes. */
    boltDirection: direction().default([0, 0, 1]),
    /** A rod end's shank, toward the member it ends. */
    shankDiameter: size().optional(),
    shankLength: size().optional(),
  });

  const tieRod = z.strictObject({
    ...common,
    kind: z.literal('tieRod'),
    tubeDiameter: size(),
    /** Bare length left at each end for the rod ends' shanks, from the joint's centre. */
    endGap: size().default(45),
  });

  const damper = z.strictObject({
    ...common,
    kind: z.literal('damper'),
    bodyDiameter: size(),
    /** From the centre of the body's mount. */
    bodyLength: size(),
    rodDiameter: size(),
    bodyEnd: z.enum(['chassis', 'arm']).default('arm'),
    eyeDiameter: size().default(36),
    eyeWidth: size().default(25),
    /** Direction of the mounting bolts at ride height, vehicle axes. */
    eyeDirection: direction().default([1, 0, 0]),
    spring: z
      .strictObject({
        outerDiameter: size(),
        /** From the centre of the body's mount to the spring seat on the body. */
        seat: size(),
      })
      .optional(),
  });

  const rides = { carrier: z.enum(CARRIERS).default('chassis') };

  const tube = z.strictObject({
    ...common,
    ...rides,
    kind: z.literal('tube'),
    from: point(),
    to: point(),
    diameter: size(),
  });

  const box = z.strictObject({
    ...common,
    ...rides,
    kind: z.literal('box'),
    centre: point(),
    /** Along the box's own x, y, z. */
    size: z.tuple([size(), size(), size()]),
    /** Turned about vehicle X, then Y, then Z through its centre. */
    rollDeg: degrees(-360, 360).default(0),
    pitchDeg: degrees(-360, 360).default(0),
    yawDeg: degrees(-360, 360).default(0),
  });

  const plate = z.strictObject({
    ...common,
    ...rides,
    kind: z.literal('plate'),
    /** Corners in order, in one plane, on one face of the plate. */
    outline: z.array(point()).min(3),
    /** To the side from which the corners run anticlockwise. */
    thickness: size(),
  });

  const part = z.discriminatedUnion('kind', [
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
    tube,
    box,
    plate,
  ]);

  const suspension = z.strictObject({
    layout: z.literal('doubleWishboneRack'),
    /** Vehicle axes at ride height, static camber and toe included. */
    hardpoints: z.strictObject({
      lowerArmFront: point(),
      lowerArmRear: point(),
      lowerJoint: point(),
      upperArmFront: point(),
      upperArmRear: point(),
      upperJoint: point(),
      tieRodInner: point(),
      tieRodOuter: point(),
      wheelCentre: point(),
    }),
    damper: z
      .strictObject({
        chassisMount: point(),
        armMount: point(),
        on: z.enum(['lowerArm', 'upperArm', 'upright']),
      })
      .optional(),
    camberDeg: degrees(-15, 15).default(0),
    /** Toe-in positive, of this wheel alone. */
    toeDeg: degrees(-10, 10).default(0),
    /** The hub's wheel-mounting face along the wheel axis from the wheel-centre hardpoint, positive outboard. Where
     * absent, the place that puts the wheel's centre plane on the hardpoint. */
    hubFace: coordinate().optional(),
    travel: z.strictObject({ bump: extent(), droop: extent() }),
    steering: z.strictObject({
      /** Rack travel from straight ahead that turns the wheel's front edge outboard, and inboard. */
      rackOutboard: extent(),
      rackInboard: extent(),
      /** The line the rack slides along, either way round. */
      rackDirection: direction().default([0, 1, 0]),
    }),
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
    /** Ids of two parts, in either order. */
    between: z.tuple([z.string(), z.string()]),
    /** Least clearance wanted, in place of the default for the two kinds. */
    target: extent().optional(),
    /** false: not checked; `why` says why and stands in the report. */
    check: z.boolean().default(true),
    why: z.string().min(1).optional(),
    /** Where contact is intended, besides the joints and bolted faces that Daylight knows of. Ride-height coordinates. */
    zone: zone.optional(),
  });

  return z.strictObject({
    $schema: z.string().optional(),
    format: z.literal(FORMAT),
    version: z.literal(VERSION),
    name: z.string().min(1),
    note: z.string().optional(),
    /** Which side of the vehicle; coordinates are those of a left corner either way. */
    side: z.enum(['left', 'right']).default('left'),
    /** Unit of a length typed as text without one. */
    unit: z.enum(['mm', 'in']).optional(),
    suspension,
    parts: z.array(part).min(1),
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
