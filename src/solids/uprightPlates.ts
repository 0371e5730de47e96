import type { Corner, Entry, JointPlace } from '../design/schema.ts';
import { convexHull, type Point2 } from '../math/convex.ts';
import { applyDirection, applyPoint, invert } from '../math/rigid.ts';
import { add, addScaled, cross, scale, type Vec3 } from '../math/vec.ts';
import { outlineCentre, outlineNormal } from './outline.ts';
import {
  armBar,
  type BossPlace,
  bossPlace,
  kickOutRadiusMm,
  legOutward,
  uprightJoints,
} from './uprightPlan.ts';
import { entries, vehicleFromWheelAxis } from './wheelFrame.ts';

/** A plate of the upright, projected along the wheel axis. */
export interface UprightPlate {
  /** `upperLeg`, `lowerLeg`, `steeringArm`, or the id of a part of kind `plate`. */
  id: string;
  name: string;
  /** Convex pieces of its projection: x, z of each corner in the wheel-axis frame, mm. */
  plan: readonly (readonly Point2[])[];
}

/** Greatest angle between a plate and the wheel axis: beyond it, bolts along that axis are on neither side of the plate. */
const MOST_LEAN_DEG = 45;

/**
 * The plates of a corner's upright that can be between bolts along the wheel axis: legs, steering arm, and the parts of kind
 * `plate` that move with the upright and are within 45 degrees of the axis. Plates more nearly square to the axis are left
 * out, as is the round pad: bolts go through them, so that none is on one side. The part of a single-plate leg inside the
 * pad is left out too; a boxed leg continues behind the pad, and counts from the axis. A leg ends at the end of its boss,
 * which is projected as the rectangle around it. Throws an Error if the steering arm has no length.
 */
export function uprightPlates(corner: Corner): UprightPlate[] {
  const [upright] = entries(corner, 'upright');
  return [...(upright === undefined ? [] : ownPlates(corner, upright)), ...platesOn(corner)];
}

function ownPlates(corner: Corner, upright: Entry<'upright'>): UprightPlate[] {
  const { lower, upper, steering } = uprightJoints(corner);
  return [
    { id: 'upperLeg', name: 'upper leg', plan: legPlan(corner, upright, upper) },
    { id: 'lowerLeg', name: 'lower leg', plan: legPlan(corner, upright, lower) },
    { id: 'steeringArm', name: 'steering arm', plan: [armPlan(corner, upright, steering)] },
  ];
}

function legPlan(corner: Corner, upright: Entry<'upright'>, place: JointPlace): readonly Point2[][] {
  const { legWidth, boxDepth, hubMount, jointMounts } = upright;
  const kickOutRadius = kickOutRadiusMm(upright);
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

/** Corners of the rectangle around a boss's projection: along its axis, or along `outward` if the axis projects to a point. */
function bossCorners({ near, far, axis }: BossPlace, radiusMm: number, outward: Vec3): Point2[] {
  const projectedLength = Math.hypot(axis[0], axis[2]);
  const isEndOn = projectedLength < END_ON;
  const [ux, uz] = isEndOn ? project(outward) : [axis[0] / projectedLength, axis[2] / projectedLength];
  // An end is a disc, projected as an ellipse.
  const beyond = radiusMm * Math.sqrt(Math.max(0, 1 - (isEndOn ? 0 : projectedLength ** 2)));
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

/** Projected length of a boss's unit axis below which the boss counts as end-on. */
const END_ON = 1e-3;

function armPlan(corner: Corner, upright: Entry<'upright'>, place: JointPlace): Point2[] {
  const { padFromBar, runMm } = armBar(bossPlace(corner, upright, place), upright);
  const { thickness, width } = upright.steeringArm;
  const ends = [-0.5, 0.5].flatMap((x) =>
    [-0.5, 0.5].flatMap((y) => [0, runMm].map((z): Vec3 => [x * thickness, y * width, z])),
  );
  return convexHull(ends.map((end) => project(applyPoint(padFromBar, end))));
}

const project = ([x, , z]: Vec3): Point2 => [x, z];

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
        plan: [convexHull(faces.map((at) => project(applyPoint(wheelFromVehicle, at))))],
      },
    ];
  });
}
