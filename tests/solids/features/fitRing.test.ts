import { describe, expect, it } from 'vitest';
import {
  add,
  addScaled,
  cross,
  distance,
  normalize,
  perpendicular,
  type Vec3,
} from '../../../src/math/vec.ts';
import { fitRing } from '../../../src/solids/features/fitRing.ts';
import { between, mulberry32 } from '../../oracles/random.ts';

const SEED = 3127;

/** Points of a circle, each moved by up to `errorMm` along the radius and across the plane. */
function ringPoints(random: () => number, errorMm: number, spanRad: number, count: number) {
  const some = () => between(random, -1, 1);
  const axis = normalize([some(), some(), some() + 1e-3]);
  const centre: Vec3 = [400 * some(), 400 * some(), 400 * some()];
  const radiusMm = between(random, 3, 200);
  const x = perpendicular(axis);
  const y = cross(axis, x);
  const points = Array.from({ length: count }, (_, i): Vec3 => {
    const angle = (spanRad * i) / (spanRad === 2 * Math.PI ? count : count - 1);
    const radial = add(addScaled([0, 0, 0], x, Math.cos(angle)), addScaled([0, 0, 0], y, Math.sin(angle)));
    // The worst case has errors of full size.
    const sign = () => (random() < 0.5 ? -errorMm : errorMm);
    return addScaled(addScaled(centre, radial, radiusMm + sign()), axis, sign());
  });
  return { points, centre, axis, radiusMm };
}

describe(`the circle through points (seed ${SEED})`, () => {
  const random = mulberry32(SEED);

  it('is the circle that the points were taken from, for full circles and arcs', () => {
    for (let round = 0; round < 200; round++) {
      const whole = random() < 0.5;
      const spanRad = whole ? 2 * Math.PI : between(random, 1, 5);
      const { points, centre, radiusMm } = ringPoints(random, 0, spanRad, 4 + Math.floor(random() * 60));
      const fitted = fitRing(points, whole);
      expect(distance(fitted?.centre ?? [0, 0, 0], centre)).toBeLessThan(1e-8);
      expect(fitted?.radiusMm).toBeCloseTo(radiusMm, 8);
      expect(fitted?.spanRad).toBeCloseTo(spanRad, 8);
    }
  });

  it('moves by no more than the gain times the errors of the points', () => {
    let closest = 0;
    for (let round = 0; round < 2000; round++) {
      const whole = random() < 0.5;
      const spanRad = whole ? 2 * Math.PI : between(random, 1, 5);
      const errorMm = 1e-4;
      const { points, centre, axis, radiusMm } = ringPoints(
        random,
        errorMm,
        spanRad,
        4 + Math.floor(random() * 9),
      );
      const fitted = fitRing(points, whole);
      if (fitted === undefined) throw new Error('no circle was found');
      // The bound is first-order; the second-order term is about the error over the radius.
      const gained = errorMm * (1 + (20 * errorMm) / radiusMm);
      const off = distance(fitted.centre, centre);
      expect(off).toBeLessThanOrEqual(gained * fitted.gain.centre);
      expect(Math.abs(fitted.radiusMm - radiusMm)).toBeLessThanOrEqual(gained * fitted.gain.radius);
      expect(Math.hypot(...cross(fitted.axis, axis))).toBeLessThanOrEqual(gained * fitted.gain.tiltRad);
      closest = Math.max(closest, off / (errorMm * fitted.gain.centre));
    }
    // The bound must also be reached nearly, or it would be too loose.
    expect(closest).toBeGreaterThan(0.5);
  });

  it('has a gain of 2 in its plane for points evenly spaced on it', () => {
    const { points } = ringPoints(random, 0, 2 * Math.PI, 24);
    expect(fitRing(points, true)?.gain.centre).toBeCloseTo(Math.hypot(2, 1), 6);
  });

  it('is undefined for points in line', () => {
    const points = [0, 1, 2, 3, 4].map((t): Vec3 => [t, 2 * t, -t]);
    expect(fitRing(points, false)).toBeUndefined();
  });
});
