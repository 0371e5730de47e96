import { cos, sin } from '../math/sine.ts';
import { type Manifold, type Modeller, segmentsFor } from './modeller.ts';

/** Chords along the meridian and chords around the axis each use half of the tolerance. */
const ballSegments = (radiusMm: number, chordToleranceMm: number) =>
  segmentsFor(radiusMm, chordToleranceMm / 2);

/**
 * A sphere about the origin: half a regular polygon with corners at both poles, revolved about z. All its vertices lie on
 * the sphere.
 */
export function ball(modeller: Modeller, radiusMm: number, chordToleranceMm: number): Manifold {
  const segments = ballSegments(radiusMm, chordToleranceMm);
  const profile: [number, number][] = [];
  for (let i = 0; i <= segments / 2; i++) {
    const latitude = (2 * Math.PI * i) / segments - Math.PI / 2;
    // Exactly 0 at the poles: the rounding error of cos(pi / 2) would leave a hole.
    const fromAxis = i === 0 || i === segments / 2 ? 0 : radiusMm * cos(latitude);
    profile.push([fromAxis, radiusMm * sin(latitude)]);
  }
  return modeller.Manifold.revolve([profile], segments);
}
