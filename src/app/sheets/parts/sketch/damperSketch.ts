import type { Corner, Entry } from '../../../../design/schema.ts';
import { fromAxes } from '../../../../math/rigid.ts';
import {
  addScaled,
  cross,
  distance,
  dot,
  length,
  normalize,
  perpendicular,
  sub,
  type Vec3,
} from '../../../../math/vec.ts';
import { ASIDE, across, type Point, type Sketch, type SketchDimension, upward } from './sketch.ts';

/**
 * A damper along its length at ride height with its body at the left, the far eye's position closed and open, and the body's
 * eye from the side. Undefined if the suspension has no damper mounts.
 */
export function damperSketch(damper: Entry<'damper'>, corner: Corner): Sketch | undefined {
  const mounts = corner.suspension.damper;
  if (mounts === undefined) return undefined;
  const ends = [mounts.armMount, mounts.chassisMount];
  const [at, far] = damper.bodyEnd === 'arm' ? ends : ends.toReversed();
  const span = distance(at, far);
  const x = normalize(sub(far, at));
  const eyeAxis = normalize(damper.eyeDirection);
  // The view direction is as close as possible to the bolts of the eyes.
  const toward = addScaled(eyeAxis, x, -dot(eyeAxis, x));
  const z: Vec3 = length(toward) > 1e-6 ? normalize(toward) : perpendicular(x);
  const [body, rod, eye] = [damper.bodyDiameter / 2, damper.rodDiameter / 2, damper.eyeDiameter / 2];
  const { spring, bodyLength, eyeWidth, closedLength, openLength } = damper;
  const coil = (spring?.outerDiameter ?? 0) / 2;
  const widest = Math.max(body, eye, coil);
  const across3 = cross(z, x);
  const square = addScaled(across3, eyeAxis, -dot(across3, eyeAxis));
  const sideY = length(square) > 1e-6 ? normalize(square) : perpendicular(eyeAxis);
  const beside = -eye - 3 * ASIDE - eyeWidth / 2;
  const inSide = (dimension: SketchDimension): SketchDimension => ({ ...dimension, view: 1 });
  return {
    title: 'Along the damper at ride height, and the eye of its body from the side',
    views: [
      { at: [0, 0], vehicleFromView: fromAxes(x, across3, z, at), cuts: [0] },
      {
        at: [beside, 0],
        vehicleFromView: fromAxes(eyeAxis, sideY, cross(eyeAxis, sideY), at),
        cuts: [0],
      },
    ],
    outlines: [],
    axes: [
      [
        [-eye - ASIDE, 0],
        [span + eye + ASIDE, 0],
      ],
      ...[closedLength, openLength]
        .filter((mm) => mm !== undefined)
        .map((mm): [Point, Point] => [
          [mm, -eye],
          [mm, eye],
        ]),
    ],
    dimensions: [
      upward('bodyDiameter', -body, body, 0.7 * bodyLength),
      across('bodyLength', 0, bodyLength, -widest - ASIDE),
      ...(closedLength === undefined ? [] : [across('closedLength', 0, closedLength, -widest - 2 * ASIDE)]),
      ...(openLength === undefined ? [] : [across('openLength', 0, openLength, -widest - 3 * ASIDE)]),
      upward('rodDiameter', -rod, rod, (bodyLength + span - eye) / 2),
      upward('eyeDiameter', -eye, eye, span),
      inSide(across('eyeWidth', beside - eyeWidth / 2, beside + eyeWidth / 2, eye + ASIDE)),
      ...(spring === undefined
        ? []
        : [
            upward('spring.outerDiameter', -coil, coil, (spring.seat + span) / 2),
            across('spring.seat', 0, spring.seat, widest + ASIDE),
          ]),
    ],
  };
}
