import { cos, sin } from '../math/sine.ts';
import { type Manifold, type Modeller, segmentsFor } from './modeller.ts';

/** Chords along the meridian and around it each take half of the error. */
const ballSegments = (radiusMm: number, chordToleranceMm: number) =>
  segmentsFor(radiusMm, chordToleranceMm / 2);

/**
 * A sphere about the origin: half a regular polygon with corners on both poles, turned about z. All of its corners lie
 * on the sphere.
 */
export function ball(modeller: Modeller, radiusMm: number, chordToleranceMm: number): Manifold {
  const segments = ballSegments(radiusMm, chordToleranceMm);
  const profile: [number, number][] = [];
  for (let i = 0; i <= segments / 2; i++) {
    const latitude = (2 * Math.PI * i) / segments - Math.PI / 2;
    // Exactly on the axis at the poles: what rounding leaves of cos(pi / 2) would make a hole there.
    const fromAxis = i === 0 || i === segments / 2 ? 0 : radiusMm * cos(latitude);
    profile.push([fromAxis, radiusMm * sin(latitude)]);
  }
  return modeller.Manifold.revolve([profile], segments);
}

/**
 * How far `ball` lies inside its sphere at most, mm. In the plane through the axis and the middle of a facet, the
 * facet is a chord of the circle, at r cos(pi / n) from its centre, drawn in toward the axis by cos(pi / n): no point of
 * it is nearer to the centre than r cos^2(pi / n).
 */
export function ballErrorMm(radiusMm: number, chordToleranceMm: number): number {
  return radiusMm * (1 - cos(Math.PI / ballSegments(radiusMm, chordToleranceMm)) ** 2);
}
