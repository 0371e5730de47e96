import type { Corner, Entry } from '../../../../design/schema.ts';
import { layoutOf } from '../../../../layouts/layoutOf.ts';
import { fromAxes } from '../../../../math/rigid.ts';
import {
  addScaled,
  cross,
  distance,
  dot,
  length,
  midpoint,
  normalize,
  perpendicular,
  sub,
  type Vec3,
} from '../../../../math/vec.ts';
import { boltDirection, housingAxis, jointOf, memberEnd, tieRodOf } from '../../../../solids/jointPlace.ts';
import { degToRad } from '../../../../units/angle.ts';
import {
  ASIDE,
  across,
  arc,
  type Point,
  rectangle,
  type Sketch,
  type SketchDimension,
  squareTo,
  turn,
  upward,
} from './sketch.ts';

/** Axes of a view: y along `up`, x as close to `right` as possible. */
function axesAlong(up: Vec3, right: Vec3): { x: Vec3; y: Vec3; z: Vec3 } {
  const y = normalize(up);
  const flat = addScaled(right, y, -dot(right, y));
  const x = length(flat) > 1e-6 * length(right) ? normalize(flat) : perpendicular(y);
  return { x, y, z: cross(x, y) };
}

/** An arm in the plane of its three points, its joint up, and its cup from the side. */
export function controlArmSketch(arm: Entry<'controlArm'>, corner: Corner): Sketch {
  const { hardpoints } = corner.suspension;
  const { front, rear, joint: outer } = layoutOf(corner.suspension).arms[arm.arm];
  const joint = hardpoints[outer];
  const [toFront, toRear] = [sub(hardpoints[front], joint), sub(hardpoints[rear], joint)];
  // The pivot line across, the front to the left.
  const across3 = normalize(sub(toRear, toFront));
  const away = addScaled(toFront, across3, -dot(toFront, across3));
  const { x, y, z } = axesAlong([-away[0], -away[1], -away[2]], across3);
  const flat = (p: Vec3): Point => [dot(p, x), dot(p, y)];
  const pivots = [flat(toFront), flat(toRear)];
  const cup = arm.cupDiameter / 2;
  const bolt = boltDirection(corner, outer);
  const side = axesAlong(bolt, x);
  // The side view of the cup is to the right of the arm.
  const beside = Math.max(pivots[1][0] + arm.pivotLength / 2, cup) + cup + 4 * ASIDE;
  const atJoint = arm.cupHeight / 2;
  const inSide = (dimension: SketchDimension): SketchDimension => ({ ...dimension, view: 1 });
  const along = (end: Point, fraction: number): Point => [end[0] * fraction, end[1] * fraction];
  const { brace, gusset } = arm;
  const [braceFrom, braceTo] = pivots.map((pivot) => along(pivot, 1 - (brace?.at ?? 0)));
  const gussetEnd = along(pivots[0], (gusset?.length ?? 0) / Math.hypot(...pivots[0]));
  return {
    title: 'In the plane of the arm, its joint at the top; the cup from the side beside it',
    views: [
      { at: [0, 0], vehicleFromView: fromAxes(x, y, z, joint), cuts: [0] },
      { at: [beside, 0], vehicleFromView: fromAxes(side.x, side.y, side.z, joint), cuts: [0] },
    ],
    outlines: [
      ...(gusset === undefined
        ? []
        : [rectangle(beside - cup - 3 * ASIDE, beside - cup, -gusset.thickness / 2, gusset.thickness / 2)]),
    ],
    axes: [
      [
        [pivots[0][0] - arm.pivotLength, pivots[0][1]],
        [pivots[1][0] + arm.pivotLength, pivots[1][1]],
      ],
      [
        [beside, -2 * atJoint],
        [beside, 2 * atJoint],
      ],
    ],
    dimensions: [
      squareTo('tubeDiameter', pivots[0], [0, 0], arm.tubeDiameter),
      upward(
        'pivotDiameter',
        pivots[0][1] - arm.pivotDiameter / 2,
        pivots[0][1] + arm.pivotDiameter / 2,
        pivots[0][0],
      ),
      across(
        'pivotLength',
        pivots[1][0] - arm.pivotLength / 2,
        pivots[1][0] + arm.pivotLength / 2,
        pivots[1][1] - arm.pivotDiameter / 2 - ASIDE,
      ),
      across('cupDiameter', -cup, cup, cup + ASIDE),
      inSide(upward('cupHeight', -atJoint, atJoint, beside + cup + ASIDE)),
      ...(brace === undefined
        ? []
        : [
            { field: 'brace.at', from: pivots[1], to: braceTo },
            squareTo('brace.diameter', braceFrom, braceTo, brace.diameter),
          ]),
      ...(gusset === undefined
        ? []
        : [
            { field: 'gusset.length', from: [0, 0] as Point, to: gussetEnd },
            inSide(
              upward(
                'gusset.thickness',
                -gusset.thickness / 2,
                gusset.thickness / 2,
                beside - cup - 2 * ASIDE,
              ),
            ),
          ]),
    ],
  };
}

/** A joint across its bolt, drawn vertical, and beside it across its housing's axis; a rod end's shank to the right. */
export function jointSketch(joint: Entry<'joint'>, corner: Corner): Sketch {
  const { hardpoints } = corner.suspension;
  const centre = hardpoints[joint.at];
  const toMember = sub(memberEnd(corner, joint.at), centre);
  const across3 = axesAlong(joint.boltDirection, toMember);
  const ofHousing = axesAlong(housingAxis(corner, joint), toMember);
  const [ball, housing, bolt] = [joint.ballDiameter / 2, joint.housingDiameter / 2, joint.boltDiameter / 2];
  const [width, long] = [joint.housingWidth / 2, joint.boltLength / 2];
  const { ballWidth, spacers, boltHead, allowedTiltDeg, shankDiameter, shankLength } = joint;
  const [spacer, head] = [(spacers?.diameter ?? 0) / 2, (boltHead?.diameter ?? 0) / 2];
  // If the ball's width is not given, its faces are where the spacers meet the ball.
  const face = (ballWidth ?? 2 * Math.sqrt(Math.max(0, ball ** 2 - spacer ** 2))) / 2;
  const widest = Math.max(ball, spacer, head);
  // The housing is drawn to the right of the bolt.
  const beside = widest + housing + 5 * ASIDE;
  const inHousing = (dimension: SketchDimension): SketchDimension => ({ ...dimension, view: 1 });
  const shank = shankDiameter !== undefined && shankLength !== undefined;
  const tiltRadius = Math.max(width, housing) + ASIDE;
  return {
    title: 'Across the bolt, and across the axis of the housing beside it',
    views: [
      {
        at: [0, 0],
        vehicleFromView: fromAxes(across3.x, across3.y, across3.z, centre),
        carrier: jointOf(corner, joint.at).bolt,
        cuts: [0],
      },
      {
        at: [beside, 0],
        vehicleFromView: fromAxes(ofHousing.x, ofHousing.y, ofHousing.z, centre),
        carrier: jointOf(corner, joint.at).housing,
        cuts: [0],
      },
    ],
    outlines: [],
    axes: [
      [
        [0, -long - ASIDE],
        [0, long + ASIDE],
      ],
      [
        [beside, -width - ASIDE],
        [beside, width + ASIDE],
      ],
    ],
    dimensions: [
      across('ballDiameter', -ball, ball, 0),
      across('boltDiameter', -bolt, bolt, long + ASIDE / 2),
      upward('boltLength', -long, long, -widest - 2 * ASIDE),
      ...(ballWidth === undefined ? [] : [upward('ballWidth', -face, face, -widest - ASIDE)]),
      ...(spacers === undefined
        ? []
        : [
            across('spacers.diameter', -spacer, spacer, -face - spacers.length / 2),
            upward('spacers.length', face, face + spacers.length, widest + ASIDE),
          ]),
      ...(boltHead === undefined
        ? []
        : [
            across('boltHead.diameter', -head, head, -long - ASIDE),
            upward('boltHead.height', -long, boltHead.height - long, widest + ASIDE),
          ]),
      inHousing(across('housingDiameter', beside - housing, beside + housing, -width - ASIDE)),
      inHousing(upward('housingWidth', -width, width, beside - housing - ASIDE)),
      ...(allowedTiltDeg === undefined
        ? []
        : [inHousing(turn('allowedTiltDeg', [beside, 0], tiltRadius, [0, degToRad(allowedTiltDeg)]))]),
      ...(shank
        ? [
            inHousing(
              upward(
                'shankDiameter',
                -shankDiameter / 2,
                shankDiameter / 2,
                beside + (housing + shankLength) / 2,
              ),
            ),
            inHousing(across('shankLength', beside, beside + shankLength, width + ASIDE)),
          ]
        : []),
    ],
  };
}

/** A tie rod along its length, its inner end at the left. */
export function tieRodSketch({ tubeDiameter, endGap }: Entry<'tieRod'>, corner: Corner): Sketch {
  const { hardpoints } = corner.suspension;
  const ends = tieRodOf(corner);
  const [inner, outer] = [hardpoints[ends.inner], hardpoints[ends.outer]];
  const span = distance(inner, outer);
  const x = normalize(sub(outer, inner));
  const { y } = axesAlong(addScaled([0, 0, 1], x, -x[2]), x);
  const half = tubeDiameter / 2;
  return {
    title: 'Along the rod, its outer end to the right',
    views: [
      {
        at: [span / 2, 0],
        vehicleFromView: fromAxes(x, y, cross(x, y), midpoint(inner, outer)),
        cuts: [0],
      },
    ],
    outlines: [0, span].map((end) => arc([end, 0], half / 2)),
    axes: [
      [
        [-ASIDE, 0],
        [span + ASIDE, 0],
      ],
    ],
    dimensions: [
      upward('tubeDiameter', -half, half, span / 2),
      across('endGap', span - endGap, span, half + ASIDE),
    ],
  };
}
