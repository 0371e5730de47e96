import type { Corner, Entry } from '../../../../design/schema.ts';
import { applyDirection, applyPoint, compose, invert } from '../../../../math/rigid.ts';
import { dot, sub, type Vec3 } from '../../../../math/vec.ts';
import { boltDirection } from '../../../../solids/jointPlace.ts';
import { kickOutRadiusMm, uprightJoints } from '../../../../solids/uprightPlan.ts';
import { axialStack } from '../../../../solids/wheelFrame.ts';
import { CUT, FROM_OUTBOARD, wheelAtDepth } from './axialView.ts';
import {
  ASIDE,
  across,
  arc,
  bar,
  type Point,
  rectangle,
  type Sketch,
  type SketchDimension,
  squareTo,
} from './sketch.ts';

/** An upright from outboard, and beside it a cut through the wheel axis with the depths of its plates. */
export function uprightSketch(upright: Entry<'upright'>, corner: Corner): Sketch {
  const pad = wheelAtDepth(corner, axialStack(corner).uprightFaceDepth);
  const vehicleFromView = compose(pad, FROM_OUTBOARD);
  const viewFromVehicle = invert(vehicleFromView);
  const { hardpoints } = corner.suspension;
  const { hubMount, legWidth, steeringArm, jointMounts, jointGap } = upright;
  const kickOutRadius = kickOutRadiusMm(upright);
  const places = uprightJoints(corner);
  const named = [places.lower, places.upper, places.steering];
  const joints = named.map((place) => applyPoint(viewFromVehicle, hardpoints[place]));
  const [lower, upper] = joints;
  const facing: Vec3[] = [upper, lower, [0, 0, 0]];
  /** Each boss in the plane of the view, along the projection of its bolt. */
  const bosses = joints.map((joint, i) => {
    const bolt = applyDirection(viewFromVehicle, boltDirection(corner, named[i]));
    const toward = dot(bolt, sub(facing[i], joint)) < 0 ? -1 : 1;
    const inPlane = Math.hypot(bolt[0], bolt[1]);
    // A bolt along the line of sight has no direction in the view: its boss is drawn toward the pad.
    const [ux, uy]: Point =
      inPlane > 0.1
        ? [(toward * bolt[0]) / inPlane, (toward * bolt[1]) / inPlane]
        : [-joint[0] / Math.hypot(joint[0], joint[1]), -joint[1] / Math.hypot(joint[0], joint[1])];
    const on = (mm: number): Point => [joint[0] + mm * ux, joint[1] + mm * uy];
    const near = on(jointGap);
    const far = on(jointGap + jointMounts.height);
    return { centre: on(0), near, far, out: joint[2] };
  });
  const out = ({ out: off }: { out: number }, dimension: SketchDimension): SketchDimension => ({
    ...dimension,
    out: off,
  });
  const legs = bosses.slice(0, 2).map(({ near, far }) => {
    const middle: Point = [(near[0] + far[0]) / 2, (near[1] + far[1]) / 2];
    const long = Math.hypot(...middle);
    const kick: Point = [(middle[0] / long) * kickOutRadius, (middle[1] / long) * kickOutRadius];
    return { kick, outlines: [bar([0, 0], kick, legWidth), bar(kick, middle, jointMounts.diameter)] };
  });
  const arm = bosses[2];
  const armEnd: Point = [(arm.near[0] + arm.far[0]) / 2, (arm.near[1] + arm.far[1]) / 2];
  const [radius, bore] = [hubMount.diameter / 2, hubMount.bore / 2];
  const right = Math.max(radius, ...bosses.map(({ centre }) => centre[0])) + 5 * ASIDE;
  const depth = upright.boxDepth > 0 ? upright.boxDepth : upright.plateThickness;
  const boxed = upright.boxDepth > 0;
  const [kickTop, mount] = [legs[1].kick[1], bosses[1]];
  const cut = (dimension: SketchDimension): SketchDimension => ({ ...dimension, view: 1 });
  return {
    title: 'From outboard with the front to the left, and a cut through the wheel axis',
    views: [
      { at: [0, 0], vehicleFromView },
      { at: [right, 0], vehicleFromView: compose(pad, CUT) },
    ],
    outlines: [
      bar([0, 0], armEnd, steeringArm.width),
      ...legs.flatMap(({ outlines }) => outlines),
      arc([0, 0], radius),
      arc([0, 0], bore),
      ...bosses.map(({ near, far }) => bar(near, far, jointMounts.diameter)),
      rectangle(right, right + depth, bore, Math.max(kickTop, radius)),
      rectangle(right, right + upright.plateThickness, -radius, -bore),
      ...(boxed
        ? [
            rectangle(
              right + upright.boxWall,
              right + depth - upright.boxWall,
              bore + upright.boxWall,
              Math.max(kickTop, radius) - upright.boxWall,
            ),
          ]
        : []),
      rectangle(right, right + steeringArm.thickness, -radius - 3 * ASIDE, -radius - ASIDE),
    ],
    axes: [
      [
        [-ASIDE, 0],
        [ASIDE, 0],
      ],
      [
        [0, -ASIDE],
        [0, ASIDE],
      ],
      [
        [right - ASIDE, 0],
        [right + depth + ASIDE, 0],
      ],
    ],
    dimensions: [
      across('hubMount.diameter', -radius, radius, 0),
      across('hubMount.bore', -bore, bore, 0),
      squareTo('legWidth', [0, 0], legs[1].kick, legWidth, 1),
      { field: 'kickOutRadius', from: [0, 0], to: legs[0].kick },
      squareTo('steeringArm.width', [0, 0], armEnd, steeringArm.width, 0.8),
      out(mount, squareTo('jointMounts.diameter', mount.near, mount.far, jointMounts.diameter)),
      out(mount, { field: 'jointMounts.height', from: mount.near, to: mount.far }),
      out(mount, { field: 'jointGap', from: mount.centre, to: mount.near }),
      cut(across('plateThickness', right, right + upright.plateThickness, -(radius + bore) / 2)),
      cut(across('boxDepth', right, right + upright.boxDepth, Math.max(kickTop, radius) + ASIDE)),
      ...(boxed
        ? [cut(across('boxWall', right, right + upright.boxWall, Math.max(kickTop, radius) / 2 + bore / 2))]
        : []),
      cut(across('steeringArm.thickness', right, right + steeringArm.thickness, -radius - 2 * ASIDE)),
    ],
  };
}
