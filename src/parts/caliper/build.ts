import type { Entry } from '../../design/schema.ts';
import { compose } from '../../math/rigid.ts';
import { cos, sin } from '../../math/sine.ts';
import { addScaled, type Vec3 } from '../../math/vec.ts';
import { type BuildContext, type Builder, modelOf } from '../../solids/build.ts';
import { bodyFootMm, caliperMountStack, caliperSeats } from '../../solids/caliperMount.ts';
import { DimensionError } from '../../solids/dimensionError.ts';
import { type Manifold, rod, segmentsFor, takeModel } from '../../solids/modeller.ts';
import { placedModel } from '../../solids/place.ts';
import { revolve, ringProfile } from '../../solids/revolved.ts';
import { axialStack, entries, vehicleFromWheelAxis, wheelFromClock } from '../../solids/wheelFrame.ts';
import { degToRad } from '../../units/angle.ts';

/** Rotor faces that place a caliper, in the wheel-axis frame. */
interface CaliperFaces {
  /** y of the rotor's friction faces. */
  inboard: number;
  outboard: number;
  rotorRadius: number;
}

/**
 * A brake caliper, built in the frame of its clocking (see `wheelFromClock`). Its body lies between two arcs about the
 * wheel axis, is `length` wide, and is cut out for the rotor and its gaps: two halves and the bridge. Its ends reach inward
 * to where the radius through their outer corner meets the inner arc. Added are the ears, each with a web to the body,
 * plain shanks for the bolts if the file has no part for them, the bracket and the bleed screw. The rotor's swept space is
 * cut out of body and webs only: an ear, bolt or bracket measured into the rotor is found to touch it. Throws an Error if
 * dimensions contradict.
 */
export const buildCaliper: Builder<Entry<'caliper'>> = (caliper, context) => {
  const { corner, modeller, chordToleranceMm } = context;
  const stack = caliperMountStack(corner, caliper);
  const { hubFaceY, rotorFaces } = axialStack(corner);
  const rotor = entries(corner, 'rotor')[0];
  const depths = rotorFaces(rotor);
  const faces = {
    inboard: hubFaceY + depths.inboard,
    outboard: hubFaceY + depths.outboard,
    rotorRadius: rotor.diameter / 2,
  };
  checkBody(caliper, faces.rotorRadius);

  // A set of bolts holds the first caliper only.
  const boltsAreParts =
    entries(corner, 'caliper')[0]?.id === caliper.id &&
    entries(corner, 'bolts').some(({ joins }) => joins === 'caliperMount');
  const { body, mount, bracket, bleedScrew } = caliper;
  const key = JSON.stringify([
    'caliper',
    { body, mount, bracket, bleedScrew },
    { hubFaceY, stack, faces, boltsAreParts, chordToleranceMm },
  ]);
  const model = modelOf(key, context, () =>
    takeModel(modeller.Manifold.union(caliperPieces(caliper, faces, boltsAreParts, context))),
  );

  const vehicleFromClock = compose(
    vehicleFromWheelAxis(corner.suspension),
    wheelFromClock(caliper.clockingDeg),
  );
  return [
    {
      id: caliper.id,
      kind: 'caliper',
      carrier: 'upright',
      ...placedModel(model, vehicleFromClock, chordToleranceMm),
      attachments: [],
      seats: caliperSeats(corner, caliper, !boltsAreParts, chordToleranceMm),
    },
  ];
};

/** Body, ears with their webs, bolts unless they are parts, bracket and bleed screw, in the frame of the clocking. */
function caliperPieces(
  caliper: Entry<'caliper'>,
  faces: CaliperFaces,
  boltsAreParts: boolean,
  context: BuildContext,
): Manifold[] {
  const { corner, modeller, chordToleranceMm } = context;
  const { mount, bleedScrew } = caliper;
  const { hubFaceY } = axialStack(corner);
  const stack = caliperMountStack(corner, caliper);
  const ear = { from: hubFaceY + stack.earInboard, to: hubFaceY + stack.earOutboard };
  const bolts = [-1, 1].map((side): Vec3 => [(side * mount.boltSpacing) / 2, 0, stack.middleRadius]);
  const alongAxis = (at: Vec3, fromY: number, toY: number, diameter: number) =>
    rod(modeller, [at[0], fromY, at[2]], [at[0], toY, at[2]], diameter / 2, chordToleranceMm);

  const pieces: Manifold[] = [bodyBlock(caliper, faces, context)];
  for (const bolt of bolts) {
    const lug = alongAxis(bolt, ear.from, ear.to, mount.earDiameter);
    pieces.push(lug, earWeb(lug, bolt, caliper, faces, context));
    if (!boltsAreParts)
      pieces.push(alongAxis(bolt, hubFaceY + stack.boltInboard, ear.to, mount.boltDiameter));
  }
  const plate = caliperBracket(caliper, context);
  if (plate) pieces.push(plate);
  if (bleedScrew) pieces.push(bleedScrewRod(bleedScrew, faces, context));
  return pieces;
}

/**
 * The bracket, in the frame of the caliper's clocking: the hull of its foot and the discs around the bolts; undefined
 * without one. Throws an Error if there is no rotor.
 */
export function caliperBracket(
  caliper: Entry<'caliper'>,
  { corner, modeller, chordToleranceMm }: BuildContext,
): Manifold | undefined {
  const { mount, bracket } = caliper;
  const stack = caliperMountStack(corner, caliper);
  if (bracket === undefined || stack.bracket === undefined) return undefined;
  const { hubFaceY } = axialStack(corner);
  const [from, to] = [hubFaceY + stack.bracket.inboard, hubFaceY + stack.bracket.outboard];
  const foot = [-1, 1].flatMap((side) =>
    [from, to].map((y): [number, number, number] => [(side * bracket.width) / 2, y, bracket.innerRadius]),
  );
  const heads = [-1, 1].map((side) => {
    const x = (side * mount.boltSpacing) / 2;
    return rod(
      modeller,
      [x, from, stack.middleRadius],
      [x, to, stack.middleRadius],
      mount.earDiameter / 2,
      chordToleranceMm,
    );
  });
  return modeller.Manifold.hull([...foot, ...heads]);
}

/** Space for the rotor: its swept disc with the body's gaps around it. */
function rotorRoom(
  caliper: Entry<'caliper'>,
  faces: CaliperFaces,
  { modeller, chordToleranceMm }: BuildContext,
) {
  const { rotorGap, faceGap } = caliper.body;
  const radius = faces.rotorRadius + rotorGap;
  return revolve(
    ringProfile(modeller, 0, radius, faces.inboard - faceGap, faces.outboard + faceGap),
    segmentsFor(radius, chordToleranceMm),
  );
}

function bodyBlock(caliper: Entry<'caliper'>, faces: CaliperFaces, context: BuildContext): Manifold {
  const { modeller, chordToleranceMm } = context;
  const { innerRadius, outerRadius, inboardDepth, outboardDepth, length } = caliper.body;
  const [from, to] = [faces.inboard - inboardDepth, faces.outboard + outboardDepth];
  const ring = revolve(
    ringProfile(modeller, innerRadius, outerRadius, from, to),
    segmentsFor(outerRadius, chordToleranceMm),
  );
  const across = modeller.Manifold.cube([length, to - from + 2, outerRadius]).translate([
    -length / 2,
    from - 1,
    bodyFootMm(caliper),
  ]);
  return ring.intersect(across).subtract(rotorRoom(caliper, faces, context));
}

/** Web between an ear and the nearest place of the body's inboard half, clear of the rotor. */
function earWeb(
  lug: Manifold,
  bolt: Vec3,
  caliper: Entry<'caliper'>,
  faces: CaliperFaces,
  context: BuildContext,
): Manifold {
  const { modeller, chordToleranceMm } = context;
  const { innerRadius, outerRadius, inboardDepth, faceGap, length } = caliper.body;
  const half = { from: faces.inboard - inboardDepth, to: faces.inboard - faceGap };
  // A round root on the half's middle radius, as near to the ear as the body's ends allow.
  const middle = (innerRadius + outerRadius) / 2;
  const radius = Math.min(caliper.mount.earDiameter / 2, (outerRadius - innerRadius) / 4, length / 4);
  const sideways = Math.sign(bolt[0]) * Math.min(Math.abs(bolt[0]), length / 2 - radius, 0.7 * middle);
  const up = Math.sqrt(middle ** 2 - sideways ** 2);
  const box = lug.boundingBox();
  const thickness = Math.min(box.max[1] - box.min[1], half.to - half.from);
  const start = Math.min(Math.max(box.min[1], half.from), half.to - thickness);
  const root = rod(
    modeller,
    [sideways, start, up],
    [sideways, start + thickness, up],
    radius,
    chordToleranceMm,
  );
  return modeller.Manifold.hull([lug, root]).subtract(rotorRoom(caliper, faces, context));
}

/** Rod of the bleed screw, from its seat in its direction. */
function bleedScrewRod(
  screw: NonNullable<Entry<'caliper'>['bleedScrew']>,
  faces: CaliperFaces,
  { modeller, chordToleranceMm }: BuildContext,
): Manifold {
  if (Math.abs(screw.along) >= screw.radius)
    throw new DimensionError(
      (shown) =>
        `bleedScrew.along ${shown(screw.along)} must be less than bleedScrew.radius ${shown(screw.radius)}, ` +
        'which is measured from the wheel axis',
    );
  const direction = degToRad(screw.directionDeg);
  const seat: Vec3 = [
    -screw.along,
    faces.inboard - screw.depth,
    Math.sqrt(screw.radius ** 2 - screw.along ** 2),
  ];
  const tip = addScaled(seat, [-sin(direction), 0, cos(direction)], screw.length);
  return rod(modeller, seat, tip, screw.diameter / 2, chordToleranceMm);
}

function checkBody({ body }: Entry<'caliper'>, rotorRadius: number): void {
  const { innerRadius, outerRadius, outboardDepth, inboardDepth, length, rotorGap, faceGap } = body;
  const edge = rotorRadius + rotorGap;
  if (outerRadius <= edge)
    throw new DimensionError(
      (shown) =>
        `body.outerRadius ${shown(outerRadius)} leaves no bridge over the rotor: it must be more than the rotor's ` +
        `radius and body.rotorGap together, ${shown(edge)}`,
    );
  if (innerRadius >= edge)
    throw new DimensionError(
      (shown) =>
        `body.innerRadius ${shown(innerRadius)} leaves no body beside the rotor: it must be less than ` +
        shown(edge),
    );
  for (const [name, depth] of [
    ['outboardDepth', outboardDepth],
    ['inboardDepth', inboardDepth],
  ] as const)
    if (depth <= faceGap)
      throw new DimensionError(
        (shown) =>
          `body.${name} ${shown(depth)}, measured from the rotor's friction face, must be more than body.faceGap ` +
          shown(faceGap),
      );
  // A longer body would have its ends near the wheel axis.
  if (length >= 1.9 * outerRadius)
    throw new DimensionError(
      (shown) =>
        `body.length ${shown(length)} does not fit inside body.outerRadius ${shown(outerRadius)}: it must be less ` +
        `than ${shown(1.9 * outerRadius)}`,
    );
}
