import { describe, expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { measure } from '../../src/clearance/query.ts';
import { translation } from '../../src/math/rigid.ts';
import { normalize, scale, type Vec3 } from '../../src/math/vec.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { box, sphere } from '../oracles/shapes.ts';

/**
 * A ball that stands out of the zone about its own centre by less than its facets lie below it. Cut by the zone as it
 * is, the mesh loses the middle of every facet, and with it true surface that the zone leaves: the eye of a damper in a
 * zone that just holds it came out 9 mm further from an arm than it is.
 */
describe('a zone that runs between the true surface and its facets', () => {
  const SIDES = 24;
  const chordErrorMm = 2 * 10 * (1 - Math.cos(Math.PI / SIDES));
  const ball = prepareBody(sphere(10, SIDES), {
    chordErrorMm,
    zones: [{ shape: 'sphere', centre: [0, 0, 0], radiusMm: 9.98 }],
  });
  const tip = prepareBody(box(1e-6, 1e-6, 1e-6), { chordErrorMm: 0 });

  it('loses none of the true surface: every distance within its error', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const random = mulberry32(seed);
      const some = () => between(random, -1, 1);
      const way: Vec3 = normalize([some(), some(), some() + 1e-3]);
      const found = measure(ball, tip, translation(scale(way, 10.5)));
      if (found.kind !== 'separated') throw new Error(`seed ${seed}: ${found.kind}`);
      expect(Math.abs(found.distanceMm - 0.5), `seed ${seed}`).toBeLessThanOrEqual(found.errorMm + 1e-6);
    }
  });

  it('is cut away whole where the zone holds it with more than the chord error to spare', () => {
    const held = prepareBody(sphere(10, SIDES), {
      chordErrorMm,
      zones: [{ shape: 'sphere', centre: [0, 0, 0], radiusMm: 10 + 2 * chordErrorMm }],
    });
    expect(held.surface.corners.length).toBe(0);
  });
});

it('what is beyond the limit is so in truth: a number that its error may take below is given', () => {
  const [a, b] = [0.05, 0.02].map((chordErrorMm) => prepareBody(box(2, 2, 2), { chordErrorMm }));
  const at = (gap: number) => measure(a, b, translation([2 + gap, 0, 0]), { limitMm: 5 });
  expect(at(5.06)).toMatchObject({ kind: 'separated' });
  expect(at(5.08)).toEqual({ kind: 'beyond', limitMm: 5 });
});
