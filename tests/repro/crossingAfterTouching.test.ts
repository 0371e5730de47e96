import { expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { PairQuery } from '../../src/clearance/query.ts';
import { box } from '../oracles/shapes.ts';

/**
 * Two boxes, the second rotated by a quarter turn and sunk 3.4e-13 mm into the first. Some pairs of triangles cross
 * by more than rounding, others touch at distance 0. A query that had stored a touching pair from another pose
 * skipped the crossing ones and reported `touching`; a new query reported `overlapping`.
 */
it('gives the same result at a nearly flush pose after another pose', () => {
  const [a, b] = [box(9.5, 4.5, 7.25), box(2.75, 1.75, 5.5)].map((mesh) =>
    prepareBody(mesh, { chordErrorMm: 0 }),
  );
  const quarter = 6.123233995736766e-17;
  const flush = Float64Array.of(quarter, -1, 0, 4.25, 1, quarter, 0, 0.875, 0, 0, 1, 6.374999999999656);
  const [cos, sin] = [-0.8384233407485162, 0.545019542482742];
  const before = Float64Array.of(cos, sin, 0, 3.875, -sin, cos, 0, 3.75, 0, 0, 1, 6.375);
  const fresh = new PairQuery(a, b);
  fresh.run(flush, Number.POSITIVE_INFINITY);
  expect(fresh.kind).toBe('overlapping');
  const carried = new PairQuery(a, b);
  carried.run(before, 60);
  carried.run(flush, Number.POSITIVE_INFINITY);
  expect(carried.clearance()).toEqual(fresh.clearance());
});
