import { cos, sin } from '../math/sine.ts';
import type { Vec3 } from '../math/vec.ts';
import {
  axisFrame,
  type CrossSection,
  chordErrorMm,
  type Manifold,
  type Modeller,
  matrix16,
  segmentsFor,
} from './modeller.ts';
import { outline, type ProfilePoint } from './revolved.ts';

/** Body of revolution of a profile (radius, place along the axis) about an axis through the origin, with its chord error. */
export function coaxial(
  profile: CrossSection,
  axis: Vec3,
  modeller: Modeller,
  chordToleranceMm: number,
): { solid: Manifold; errorMm: number } {
  const radius = profile.bounds().max[0];
  const segments = segmentsFor(radius, chordToleranceMm);
  const solid = modeller.Manifold.revolve(profile.toPolygons(), segments).transform(
    matrix16(axisFrame([0, 0, 0], axis)),
  );
  return { solid, errorMm: chordErrorMm(radius, segments) };
}

/**
 * Profile of a ball: half of a disc beside its axis, with corners on the circle. `errorMm`: greatest distance of its sides
 * inside the circle, at most half of the chord tolerance.
 */
export function halfDisc(
  modeller: Modeller,
  radiusMm: number,
  chordToleranceMm: number,
): { profile: CrossSection; errorMm: number } {
  const segments = segmentsFor(radiusMm, chordToleranceMm / 2);
  const points: ProfilePoint[] = [];
  for (let i = 0; i <= segments / 2; i++) {
    const latitude = (2 * Math.PI * i) / segments - Math.PI / 2;
    const atPole = i === 0 || i === segments / 2;
    points.push([atPole ? 0 : radiusMm * cos(latitude), radiusMm * sin(latitude)]);
  }
  return { profile: outline(modeller, points), errorMm: chordErrorMm(radiusMm, segments) };
}
