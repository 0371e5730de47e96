import { describe, expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { PairQuery } from '../../src/clearance/query.ts';
import { compose, rotationAbout, translation } from '../../src/math/rigid.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { box, rod, sphere } from '../oracles/shapes.ts';

const OFF = compose(translation([0.3, 0.2, 0.1]), rotationAbout([0, 0, 0], [0, 0, 1], 0.4));

/** A ball of 19 in a ball of 20 has a nearly constant depth, so no search gets down to its triangles. */
describe('a body entirely inside another, with too few evaluations to find a point of it', () => {
  it.each<[string, Mesh, Mesh, number, number | undefined]>([
    ['a ball in a box', sphere(5, 64), box(100, 100, 100), 40, undefined],
    ['a fine ball in a ball', sphere(5, 200), sphere(20, 64), 200, undefined],
    ['a rod in a rod', rod(5, -20, 20, 96, 40), rod(8, -25, 25, 96), 200, undefined],
    ['a ball that nearly fills a ball, with many evaluations', sphere(19, 200), sphere(20, 64), 8000, 8000],
  ])('%s overlaps', (_, inner, outer, evaluations, maxEvaluations) => {
    const one = prepareBody(inner, { chordErrorMm: 0 });
    const other = prepareBody(outer, { chordErrorMm: 0 });
    for (const [a, b] of [
      [one, other],
      [other, one],
    ]) {
      const query = new PairQuery(a, b, {
        depthToleranceMm: 1,
        maxEvaluations: maxEvaluations ?? evaluations,
      });
      query.run(OFF, 60);
      expect(query.kind).toBe('overlapping');
      expect(query.distanceMm).toBeLessThan(-0.1);
      expect(query.errorMm).toBeLessThan(100);
      const [[ax, ay, az], [bx, by, bz]] = [query.pointA, query.pointB];
      expect(Math.hypot(ax - bx, ay - by, az - bz)).toBeCloseTo(-query.distanceMm, 9);
      query.runUntilDeeper(OFF, 60, 0, evaluations);
      expect([query.kind, query.errorMm]).toEqual(['overlapping', Number.POSITIVE_INFINITY]);
      expect(query.distanceMm).toBeLessThan(0);
    }
  });
});
