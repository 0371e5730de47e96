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

/** A point of a profile in the half plane beside the wheel axis: radius and y of the wheel-axis frame, mm. */
export type ProfilePoint = readonly [radiusMm: number, yMm: number];

/** The area inside a closed outline, whichever way round it runs. */
export function outline(modeller: Modeller, points: readonly ProfilePoint[]): CrossSection {
  return new modeller.CrossSection(
    points.map(([radius, y]): [number, number] => [radius, y]),
    'NonZero',
  );
}

/** The profile of a ring: its two radii and the y of its two ends. */
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

/** The modeller turns a profile about its own second axis and calls that axis z. */
const WHEEL_FROM_TURNED = matrix16(fromAxes([0, 0, 1], [1, 0, 0], [0, 1, 0], [0, 0, 0]));

/** The body that a profile sweeps in a full turn about the wheel axis, in the wheel-axis frame. */
export const revolve = (profile: CrossSection, segments: number): Manifold =>
  profile.revolve(segments).transform(WHEEL_FROM_TURNED);

/** A solid's shape as a body of revolution, and the same still in the modeller, to cut its looks from. */
export interface Turned {
  placed: Pick<BuiltSolid, 'mesh' | 'shown' | 'volumeMm3' | 'chordErrorMm'>;
  /** In the wheel-axis frame. */
  body: Manifold;
  /** Of each of its circles. */
  segments: number;
}

/**
 * The body of revolution of a profile, placed in the vehicle. `profileErrorMm` is how far the profile's own straight
 * pieces lie from the arcs they stand for, where there are any.
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
