import type { Corner, Entry } from '../design/schema.ts';
import { convexHull, type Point2 } from '../math/convex.ts';
import { applyDirection, applyPoint, invert } from '../math/rigid.ts';
import { add, addScaled, cross, scale, type Vec3 } from '../math/vec.ts';
import { outlineCentre, outlineNormal } from './plate.ts';
import { armBar, type BossPlace, bossPlace, legOutward } from './uprightPlan.ts';
import { entries, vehicleFromWheelAxis } from './wheelFrame.ts';

/** A plate of the upright, seen along the wheel axis. */
export interface UprightPlate {
  /** `upperLeg`, `lowerLeg`, `steeringArm`, or the id of a part of kind `plate`. */
  id: string;
  name: string;
  /** Convex pieces that it is seen as: corners by x, z of the wheel-axis frame, mm. */
  plan: readonly (readonly Point2[])[];
}

/** A plate that leans further than this from the wheel axis has no sides on which bolts along that axis could stand. */
const MOST_LEAN_DEG = 45;

/**
 * The plates of a corner's upright that can stand between bolts which run along the wheel axis: legs, steering arm, and the
 * parts of kind `plate` that ride on the upright and stand along the axis to within 45 degrees. Those more nearly square to the
 * axis are left out, as is the round pad: bolts go through them, and none is on one side of them. So is as much of a leg
 * of a single plate as lies in the pad; the walls of a boxed leg run on behind the pad, and count from the axis. A leg counts
 * to the end of its boss, which is seen as the rectangle round it. Throws an Error where the steering arm has no length.
 */
export function uprightPlates(corner: Corner): UprightPlate[] {
  const [upright] = entries(corner, 'upright');
  return [...(upright === undefined ? [] : ownPlates(corner, upright)), ...platesOn(corner)];
}

const ownPlates = (corner: Corner, upright: Entry<'upright'>): UprightPlate[] => [
  { id: 'upperLeg', name: 'upper leg', plan: legPlan(corner, upright, 'upperJoint') },
  { id: 'lowerLeg', name: 'lower leg', plan: legPlan(corner, upright, 'lowerJoint') },
  { id: 'steeringArm', name: 'steering arm', plan: [armPlan(corner, upright)] },
];

function legPlan(
  corner: Corner,
  upright: Entry<'upright'>,
  place: 'upperJoint' | 'lowerJoint',
): readonly Point2[][] {
  const { legWidth, kickOutRadius, boxDepth, hubMount, jointMounts } = upright;
  const boss = bossPlace(corner, upright, place);
  const outward = legOutward(boss);
  const across = cross([0, 1, 0], outward);
  const side = (at: Vec3, width: number): Point2[] =>
    [-1, 1].map((way) => {
      const [x, , z] = addScaled(at, across, (way * width) / 2);
      return [x, z];
    });
  const begins = boxDepth > 0 ? 0 : hubMount.diameter / 2;
  const kickOut = side(scale(outward, kickOutRadius), legWidth);
  const kicked = convexHull([...kickOut, ...bossCorners(boss, jointMounts.diameter / 2, outward)]);
  if (begins >= kickOutRadius) return [kicked];
  return [convexHull([...side(scale(outward, begins), legWidth), ...kickOut]), kicked];
}

/** Corners of the rectangle round a boss as it is seen: along its axis, or along `outward` where that is seen end-on. */
function bossCorners({ near, far, axis }: BossPlace, radiusMm: number, outward: Vec3): Point2[] {
  const seenLength = Math.hypot(axis[0], axis[2]);
  const isEndOn = seenLength < END_ON;
  const [ux, uz] = isEndOn ? seen(outward) : [axis[0] / seenLength, axis[2] / seenLength];
  // An end is a disc, seen as an ellipse.
  const beyond = radiusMm * Math.sqrt(Math.max(0, 1 - (isEndOn ? 0 : seenLength ** 2)));
  const ends = [
    [near, -1],
    [far, 1],
  ] as const;
  return ends.flatMap(([[x, , z], way]) =>
    [-1, 1].map(
      (side): Point2 => [
        x + way * beyond * ux - side * radiusMm * uz,
        z + way * beyond * uz + side * radiusMm * ux,
      ],
    ),
  );
}

/** As much of its length does a boss show where it counts as seen end-on. */
const END_ON = 1e-3;

function armPlan(corner: Corner, upright: Entry<'upright'>): Point2[] {
  const { padFromBar, runMm } = armBar(bossPlace(corner, upright, 'tieRodOuter'), upright);
  const { thickness, width } = upright.steeringArm;
  const ends = [-0.5, 0.5].flatMap((x) =>
    [-0.5, 0.5].flatMap((y) => [0, runMm].map((z): Vec3 => [x * thickness, y * width, z])),
  );
  return convexHull(ends.map((end) => seen(applyPoint(padFromBar, end))));
}

const seen = ([x, , z]: Vec3): Point2 => [x, z];

function platesOn(corner: Corner): UprightPlate[] {
  const wheelFromVehicle = invert(vehicleFromWheelAxis(corner.suspension));
  return entries(corner, 'plate').flatMap((plate): UprightPlate[] => {
    if (plate.carrier !== 'upright') return [];
    const normal = outlineNormal(plate.outline, outlineCentre(plate.outline));
    const [, alongAxis] = applyDirection(wheelFromVehicle, normal);
    if (Math.abs(alongAxis) > Math.sin((MOST_LEAN_DEG * Math.PI) / 180)) return [];
    const faces = [...plate.outline, ...plate.outline.map((at) => add(at, scale(normal, plate.thickness)))];
    return [
      {
        id: plate.id,
        name: plate.label ?? plate.id,
        plan: [convexHull(faces.map((at) => seen(applyPoint(wheelFromVehicle, at))))],
      },
    ];
  });
}
