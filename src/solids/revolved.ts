import { fromAxes } from '../math/rigid.ts';
import { type BuildContext, modelOf } from './build.ts';
import {
  type CrossSection,
  chordErrorMm,
  type Manifold,
  type Modeller,
  matrix16,
  segmentsFor,
  takeModel,
} from './modeller.ts';
import { type Placed, placedModel } from './place.ts';
import { vehicleFromWheelAxis } from './wheelFrame.ts';

/** A point of a profile in a half plane through the wheel axis: radius and y of the wheel-axis frame, mm. */
export type ProfilePoint = readonly [radiusMm: number, yMm: number];

/** The area inside a closed outline of either orientation. */
export function outline(modeller: Modeller, points: readonly ProfilePoint[]): CrossSection {
  return new modeller.CrossSection(
    points.map(([radius, y]): [number, number] => [radius, y]),
    'NonZero',
  );
}

/** Profile of a ring from its two radii and the y of its two ends. */
export const ringProfile = (
  modeller: Modeller,
  innerRadiusMm: number,
  outerRadiusMm: number,
  fromYMm: number,
  toYMm: number,
): CrossSection =>
  outline(modeller, [
    [innerRadiusMm, fromYMm],
    [outerRadiusMm, fromYMm],
    [outerRadiusMm, toYMm],
    [innerRadiusMm, toYMm],
  ]);

/** The modeller revolves a profile about the profile's second axis, which becomes z. */
const WHEEL_FROM_TURNED = matrix16(fromAxes([0, 0, 1], [1, 0, 0], [0, 1, 0], [0, 0, 0]));

/** Body of revolution of a profile about the wheel axis, in the wheel-axis frame. */
export const revolve = (profile: CrossSection, segments: number): Manifold =>
  profile.revolve(segments).transform(WHEEL_FROM_TURNED);

/** A body of revolution: as a placed mesh, and in the modeller, to cut the displayed shape from. */
export interface Turned {
  placed: Placed;
  /**
   * Makes the body in the wheel-axis frame. Call it before the solids that it is cut with are made: the order of the
   * triangles follows the order in which the solids were made.
   */
  body(): Manifold;
  /** Number of segments of each circle. */
  segments: number;
}

/**
 * The body of revolution of a profile, placed in the vehicle. `profileErrorMm`: distance of the profile's straight pieces
 * from the arcs that they approximate. A body that is turned from the same numbers as before is only moved.
 */
export function turned(profile: CrossSection, context: BuildContext, profileErrorMm = 0): Turned {
  const radius = profile.bounds().max[0];
  const segments = segmentsFor(radius, context.chordToleranceMm - profileErrorMm);
  let made: Manifold | undefined;
  const body = () => {
    made ??= revolve(profile, segments);
    return made;
  };
  const key = JSON.stringify(['turned', segments, profile.toPolygons()]);
  const model = modelOf(key, context, () => takeModel(body()));
  const shapeErrorMm = chordErrorMm(radius, segments) + profileErrorMm;
  const frame = vehicleFromWheelAxis(context.corner.suspension);
  return { body, segments, placed: placedModel(model, frame, shapeErrorMm) };
}
