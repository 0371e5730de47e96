import { describe, expect, it } from 'vitest';
import { prepareBody } from '../../../src/clearance/body.ts';
import { PairQuery } from '../../../src/clearance/query.ts';
import { compose, rotationAbout, translation } from '../../../src/math/rigid.ts';
import type { Mesh } from '../../../src/solids/solid.ts';
import { needsSmallerStep, type Reading, rateOf } from '../../../src/studies/sensitivity/rate.ts';
import { box, moved, rod, sphere, torus } from '../../oracles/shapes.ts';

/** The clearance of two meshes whose surfaces are within `chordErrorMm` of the true ones. */
function readingOf(a: Mesh, b: Mesh, chordErrorMm: number): Reading {
  const query = new PairQuery(prepareBody(a, { chordErrorMm }), prepareBody(b, { chordErrorMm }));
  query.run(translation([0, 0, 0]), 1000);
  return { mm: query.distanceMm, errorMm: query.errorMm };
}

/** The rate of a clearance that is a function of a value. */
function rateAt(clearance: (value: number) => Reading, value: number, step: number) {
  const over = (by: number, smaller?: ReturnType<typeof rateOf>) =>
    rateOf(clearance(value), clearance(value - by), clearance(value + by), by, smaller);
  const rate = over(step);
  return needsSmallerStep(rate) ? over(step, over(step / 4)) : rate;
}

const exactly = (mm: number): Reading => ({ mm, errorMm: 0 });

/** Checks that a slope is known to a tenth and contains the derivative. */
function expectSlope(rate: ReturnType<typeof rateOf>, derivative: number) {
  const { perUnit, error } = rate.both ?? { perUnit: Number.NaN, error: 0 };
  expect(error).toBeLessThan(0.11);
  expect(Math.abs(perUnit - derivative)).toBeLessThanOrEqual(error);
}

/** Closed forms, each by hand. */
describe('the slope of a clearance', () => {
  const segments = 100;
  /** Sagitta of a polygon with that many sides. */
  const sagitta = (radius: number) => radius * (1 - Math.cos(Math.PI / segments));

  it('of a ball over a plate is 1 with its height, -1 with its radius and 0 along the plate', () => {
    const plate = box(100, 100, 10);
    const over = (radius: number, x: number, z: number) =>
      readingOf(plate, moved(sphere(radius, segments), translation([x, 0, z])), 2 * sagitta(radius));
    expectSlope(
      rateAt((z) => over(20, 3, z), 40, 1),
      1,
    );
    expectSlope(
      rateAt((radius) => over(radius, 3, 40), 20, 1),
      -1,
    );
    expectSlope(
      rateAt((x) => over(20, x, 40), 3, 1),
      0,
    );
  });

  it('of crossed rods is 1 with their distance, and 0 with the angle between them', () => {
    const crossed = (apart: number, degrees: number) =>
      readingOf(
        rod(8, -100, 100, segments),
        moved(
          rod(5, -100, 100, segments),
          compose(translation([0, apart, 0]), rotationAbout([0, 0, 0], [0, 1, 0], (degrees * Math.PI) / 180)),
        ),
        sagitta(8),
      );
    expectSlope(
      rateAt((apart) => crossed(apart, 70), 25, 1),
      1,
    );
    expectSlope(
      rateAt((degrees) => crossed(25, degrees), 70, 1),
      0,
    );
  });

  it('of a rod along the axis of a torus is 1 with the radius of the torus and -1 with each of the others', () => {
    const through = (radius: number, tube: number, thick: number) =>
      readingOf(torus(radius, tube, segments, segments), rod(thick, -40, 40, segments), 2 * sagitta(radius));
    expectSlope(
      rateAt((radius) => through(radius, 6, 10), 40, 1),
      1,
    );
    expectSlope(
      rateAt((tube) => through(40, tube, 10), 6, 1),
      -1,
    );
    expectSlope(
      rateAt((thick) => through(40, 6, thick), 10, 1),
      -1,
    );
  });

  it('of a crank under a plate contains the derivative, r cos(angle) per radian', () => {
    const [r, plateMm, angleDeg] = [100, 120, 40];
    const rise = (degrees: number) => exactly(plateMm - r * Math.sin((degrees * Math.PI) / 180));
    const rate = rateAt(rise, angleDeg, 0.5);
    const derivative = (-r * Math.cos((angleDeg * Math.PI) / 180) * Math.PI) / 180;
    expect(Math.abs((rate.both?.perUnit ?? Number.NaN) - derivative)).toBeLessThanOrEqual(
      rate.both?.error ?? 0,
    );
    expect(rate.both?.error).toBeLessThan(0.01);
  });
});

describe('where another place becomes the nearest', () => {
  it('at the value, both sides are given apart', () => {
    const rate = rateAt((x) => exactly(10 - Math.abs(x)), 0, 1);
    expect(rate.both).toBeUndefined();
    expect([rate.below?.perUnit, rate.above?.perUnit]).toEqual([1, -1]);
  });

  it('within the step, both sides are given apart', () => {
    const rate = rateAt((x) => exactly(Math.min(x, 0.7)), 0, 1);
    expect(rate.both).toBeUndefined();
    expect(rate.above?.perUnit).toBeCloseTo(0.7, 12);
    expect(rate.below?.perUnit).toBeCloseTo(1, 12);
  });

  it('but a curve has one slope, with the difference of its sides in the error', () => {
    const rate = rateAt((x) => exactly(0.2 * x * x), 2, 1);
    expect(rate.both?.perUnit).toBeCloseTo(0.8, 12);
    expect(rate.both?.error).toBeCloseTo(0.2, 12);
  });
});

it('a side that is not measured, or of which the error is unknown, has no slope', () => {
  const at = exactly(5);
  expect(rateOf(at, undefined, exactly(6), 1)).toEqual({
    below: undefined,
    above: { perUnit: 1, error: 0 },
    both: undefined,
  });
  expect(rateOf(at, exactly(4), { mm: 6, errorMm: Number.POSITIVE_INFINITY }, 1).above).toBeUndefined();
});
