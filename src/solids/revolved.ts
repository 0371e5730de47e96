import { fromAxes } from '../math/rigid.ts';
import type { BuildContext, BuiltSolid } from './build.ts';
import {
  type CrossSection,
  chordErrorMm,
  type Manifold,
  type Modeller,
  matrix16,
  segmentsFor,
} from './modeller.ts';
import { placed } from './place.ts';
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
  placed: Pick<BuiltSolid, 'mesh' | 'shown' | 'volumeMm3' | 'chordErrorMm'>;
  /** In the wheel-axis frame. */
  body: Manifold;
  /** Number of segments of each circle. */
  segments: number;
}

/**
 * The body of revolution of a profile, placed in the vehicle. `profileErrorMm`: distance of the profile's straight pieces
 * from the arcs that they approximate.
 */
export function turned(
  profile: CrossSection,
  { corner, chordToleranceMm }: BuildContext,
  profileErrorMm = 0,
): Turned {
  const radius = profile.bounds().max[0];
  const segments = segmentsFor(radius, chordToleranceMm - profileErrorMm);
  const body = revolve(profile, segments);
  const shapeErrorMm = chordErrorMm(radius, segments) + profileErrorMm;
  return { body, segments, placed: placed(body, vehicleFromWheelAxis(corner.suspension), shapeErrorMm) };
}
