import { describe, expect, it } from 'vitest';
import { type Body, prepareBody } from '../../src/clearance/body.ts';
import { measure } from '../../src/clearance/query.ts';
import { compose, fromAxes, identity, type Rigid, rotationAbout, translation } from '../../src/math/rigid.ts';
import { cross, normalize, perpendicular, type Vec3 } from '../../src/math/vec.ts';
import { ring, rod, sphere, torus } from '../oracles/shapes.ts';

/**
 * Distances in closed form for the shapes of a corner. The formulas are elementary geometry; the distance of a point
 * from a torus is also in "sdTorus", computergraphics.stackexchange.com question 10712. Meshes approximate the round
 * shapes, so each distance must agree within the chord error stated in the result.
 */

const ORIGIN: Vec3 = [0, 0, 0];
const Y: Vec3 = [0, 1, 0];
const chord = (radius: number, segments: number): number => radius * (1 - Math.cos(Math.PI / segments));

const roundRod = (radius: number, half: number): Body =>
  prepareBody(rod(radius, -half, half, 128), { chordErrorMm: chord(radius, 128) });
const doughnut = (radius: number, tube: number, segments = 192, sides = 64): Body =>
  prepareBody(torus(radius, tube, segments, sides), {
    chordErrorMm: chord(radius + tube, segments) + chord(tube, sides),
  });

function expectWithin(a: Body, b: Body, aFromB: Rigid, expected: number): void {
  const found = measure(a, b, aFromB);
  expect(found.kind).toBe('separated');
  if (found.kind !== 'separated') return;
  expect(found.errorMm).toBeLessThan(0.3);
  expect(Math.abs(found.distanceMm - expected)).toBeLessThanOrEqual(found.errorMm + 1e-9);
}

const alongX = rotationAbout(ORIGIN, Y, Math.PI / 2);

describe('tyre (torus R 300, r 40)', () => {
  const tyre = doughnut(300, 40);
  it('about a coaxial rod r 20: R - r - 20', () => {
    expectWithin(tyre, roundRod(20, 100), identity(), 300 - 40 - 20);
  });
  it('under a rod r 10 along a diameter at height 100: 100 - r - 10', () => {
    expectWithin(tyre, roundRod(10, 500), compose(translation([0, 0, 100]), alongX), 50);
  });
  it('under a rod r 10 along a chord at height 100', () => {
    const alongY = rotationAbout(ORIGIN, [1, 0, 0], Math.PI / 2);
    expectWithin(tyre, roundRod(10, 500), compose(translation([200, 0, 100]), alongY), 50);
  });
  it('from a small ball: hypot(hypot(x, y) - R, z) - r', () => {
    const small = prepareBody(sphere(0.5, 64), { chordErrorMm: 2 * chord(0.5, 64) });
    for (const [x, y, z] of [
      [0, 0, 0],
      [120, -70, 44],
      [390, 10, -20],
      [200, 210, 75],
    ] as const) {
      expectWithin(tyre, small, translation([x, y, z]), Math.hypot(Math.hypot(x, y) - 300, z) - 40 - 0.5);
    }
  });
});

describe('rods', () => {
  it('crossing at a right angle, r 15 and r 12, axes 47 apart: 20', () => {
    expectWithin(roundRod(15, 100), roundRod(12, 100), compose(translation([0, 47, 0]), alongX), 20);
  });
  it('crossing at any angle: the distance of the axes minus both radii', () => {
    for (const degrees of [3, 20, 61, 90]) {
      const turn = rotationAbout(ORIGIN, Y, (degrees * Math.PI) / 180);
      expectWithin(roundRod(15, 200), roundRod(12, 200), compose(translation([0, 47, 0]), turn), 20);
    }
  });
  it('a ball r 10 over the rim of a cylinder r 50: hypot(20, 20) - 10', () => {
    const cylinder = prepareBody(rod(50, 0, 40, 256), { chordErrorMm: chord(50, 256) });
    const ball = prepareBody(sphere(10, 128), { chordErrorMm: 2 * chord(10, 128) });
    expectWithin(cylinder, ball, translation([70, 0, 60]), Math.hypot(20, 20) - 10);
  });
});

describe('rotor (disc R 150, 20 thick) tilted in a bore of 190', () => {
  const segments = 720;
  const bore = prepareBody(
    ring(
      [
        [190, -60],
        [220, -60],
        [220, 60],
        [190, 60],
      ],
      segments,
    ),
    { chordErrorMm: chord(190, segments) },
  );
  const disc = prepareBody(rod(150, -10, 10, segments), { chordErrorMm: chord(150, segments) });
  /** The point furthest from the bore's axis is at the rim's sides if tan(tilt) >= h / R, otherwise at its top. */
  const closedForm = (tilt: number): number =>
    Math.tan(tilt) >= 10 / 150
      ? 190 - Math.hypot(150, 10)
      : 190 - (150 * Math.cos(tilt) + 10 * Math.sin(tilt));
  it.each([0, 1, 3, 3.8, 5, 8])('by %d degrees', (degrees) => {
    const tilt = (degrees * Math.PI) / 180;
    const found = measure(bore, disc, rotationAbout(ORIGIN, Y, tilt));
    if (found.kind !== 'separated') throw new Error(found.kind);
    expect(Math.abs(found.distanceMm - closedForm(tilt))).toBeLessThanOrEqual(found.errorMm);
    expect(found.errorMm).toBeLessThan(0.004);
  });
  it('at 5 degrees is 39.667, not the 39.699 that the front view shows', () => {
    expect(closedForm((5 * Math.PI) / 180)).toBeCloseTo(39.6670362163, 9);
  });
});

describe('thin rings as circles', () => {
  it('coaxial, R 300 and R 150, 80 apart: hypot(150, 80)', () => {
    const [large, small] = [doughnut(300, 1, 360, 24), doughnut(150, 1, 360, 24)];
    expectWithin(large, small, translation([0, 0, 80]), 170 - 2);
  });
  it('skew: against the distance of the two circles found by search', () => {
    const z = normalize([0.3, 0.2, 0.933]);
    const x = perpendicular(z);
    const centre: Vec3 = [100, 40, 80];
    const circles = circleDistance(300, 150, centre, x, cross(z, x));
    expect(circles).toBeCloseTo(58.548092842, 6);
    const [large, small] = [doughnut(300, 1, 720, 24), doughnut(150, 1, 720, 24)];
    expectWithin(large, small, fromAxes(x, cross(z, x), z, centre), circles - 2);
  });
});

/**
 * Distance of the circle about the origin in z = 0 from another circle: nearest point of the first, searched along
 * the second.
 */
function circleDistance(radius: number, other: number, centre: Vec3, x: Vec3, y: Vec3): number {
  const at = (angle: number): number => {
    const [px, py, pz] = [0, 1, 2].map(
      (k) => centre[k] + other * (Math.cos(angle) * x[k] + Math.sin(angle) * y[k]),
    );
    return Math.hypot(Math.hypot(px, py) - radius, pz);
  };
  let best = 0;
  for (let k = 0; k < 3600; k++) if (at((k * Math.PI) / 1800) < at(best)) best = (k * Math.PI) / 1800;
  for (let width = Math.PI / 1800; width > 1e-12; width /= 2) {
    for (const angle of [best - width, best + width]) if (at(angle) < at(best)) best = angle;
  }
  return at(best);
}

describe('facets: a rod in a bore', () => {
  it.each([64, 512])('of %d aligned sides: the gap is that of the corners', (segments) => {
    const bore = prepareBody(
      ring(
        [
          [190, -20],
          [200, -20],
          [200, 20],
          [190, 20],
        ],
        segments,
      ),
      { chordErrorMm: chord(190, segments) },
    );
    const inner = prepareBody(rod(180, -10, 10, segments), { chordErrorMm: chord(180, segments) });
    const cos = Math.cos(Math.PI / segments);
    const aligned = measure(bore, inner, identity());
    const between = measure(bore, inner, rotationAbout(ORIGIN, [0, 0, 1], Math.PI / segments));
    if (aligned.kind !== 'separated' || between.kind !== 'separated') throw new Error('not apart');
    expect(aligned.distanceMm).toBeCloseTo(10 * cos, 9);
    expect(between.distanceMm).toBeCloseTo(190 * cos - 180, 9);
    for (const found of [aligned, between]) {
      expect(Math.abs(found.distanceMm - 10)).toBeLessThanOrEqual(found.errorMm);
    }
  });
});
