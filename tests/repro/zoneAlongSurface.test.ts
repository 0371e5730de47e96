import { describe, expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { measure } from '../../src/clearance/query.ts';
import { translation } from '../../src/math/rigid.ts';
import { normalize, scale, type Vec3 } from '../../src/math/vec.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { box, sphere } from '../oracles/shapes.ts';

/**
 * A ball that projects from a zone about its own centre by less than the depth of its facets below it. Cut with the
 * full zone, the mesh loses the middle of every facet, although the true surface there is outside the zone. The eye
 * of a damper in a zone that just contained it was measured 9 mm too far from an arm.
 */
describe('a zone whose edge is between the true surface and its facets', () => {
  const SIDES = 24;
  const chordErrorMm = 2 * 10 * (1 - Math.cos(Math.PI / SIDES));
  const ball = prepareBody(sphere(10, SIDES), {
    chordErrorMm,
    zones: [{ shape: 'sphere', centre: [0, 0, 0], radiusMm: 9.98 }],
  });
  const tip = prepareBody(box(1e-6, 1e-6, 1e-6), { chordErrorMm: 0 });

  it('keeps the true surface: every distance is within its error', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const random = mulberry32(seed);
      const some = () => between(random, -1, 1);
      const direction: Vec3 = normalize([some(), some(), some() + 1e-3]);
      const found = measure(ball, tip, translation(scale(direction, 10.5)));
      if (found.kind !== 'separated') throw new Error(`seed ${seed}: ${found.kind}`);
      expect(Math.abs(found.distanceMm - 0.5), `seed ${seed}`).toBeLessThanOrEqual(found.errorMm + 1e-6);
    }
  });

  it('removes the whole ball if it contains it by more than the chord error', () => {
    const held = prepareBody(sphere(10, SIDES), {
      chordErrorMm,
      zones: [{ shape: 'sphere', centre: [0, 0, 0], radiusMm: 10 + 2 * chordErrorMm }],
    });
    expect(held.surface.corners.length).toBe(0);
  });
});

it('reports beyond only if the true distance is above the limit, errors included', () => {
  const [a, b] = [0.05, 0.02].map((chordErrorMm) => prepareBody(box(2, 2, 2), { chordErrorMm }));
  const at = (gap: number) => measure(a, b, translation([2 + gap, 0, 0]), { limitMm: 5 });
  expect(at(5.06)).toMatchObject({ kind: 'separated' });
  expect(at(5.08)).toEqual({ kind: 'beyond', limitMm: 5 });
});
