import { describe, expect, it } from 'vitest';
import { type Body, prepareBody } from '../../src/clearance/body.ts';
import { PairQuery } from '../../src/clearance/query.ts';
import { Trim } from '../../src/clearance/trim.ts';
import { compose, type Rigid, rotationAbout, translation } from '../../src/math/rigid.ts';
import type { Mesh, Zone } from '../../src/solids/solid.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { box, merged, moved, rod } from '../oracles/shapes.ts';

const ZONE_MM = 0.01;
const SEEDS = [11, 12, 13, 14];

const place = (random: () => number, mm: number): Rigid =>
  compose(
    translation([between(random, -mm, mm), between(random, -mm, mm), between(random, -mm, mm)]),
    rotationAbout([0, 0, 0], [0.6, 0, 0.8], between(random, -3, 3)),
  );

const shape = (random: () => number): Mesh =>
  merged(
    moved(box(between(random, 30, 60), between(random, 20, 40), 20), place(random, 10)),
    moved(rod(between(random, 5, 12), -25, 30, 24), place(random, 25)),
  );

function zonesOf(random: () => number): Zone[] {
  const centre = () =>
    [between(random, -25, 25), between(random, -25, 25), between(random, -15, 15)] as const;
  const zones: Zone[] = [
    { shape: 'sphere', centre: [...centre()], radiusMm: between(random, 8, 20) },
    {
      shape: 'slab',
      centre: [...centre()],
      axis: [0.36, 0.48, 0.8],
      halfThicknessMm: between(random, 4, 10),
      radiusMm: between(random, 10, 25),
    },
  ];
  return zones.slice(random() < 0.5 ? 0 : 1);
}

const whole = (mesh: Mesh): Body => prepareBody(mesh, { chordErrorMm: 0 });

describe.each(SEEDS)('zones that move at each pose, seed %i', (seed) => {
  const random = mulberry32(seed);
  const [meshA, meshB] = [shape(random), shape(random)];
  const [a, b] = [whole(meshA), whole(meshB)];
  const [trimA, trimB] = [new Trim(a.surface), new Trim(b.surface)];
  const query = new PairQuery(a, b, { trimA, trimB, maxEvaluations: 20_000, depthToleranceMm: 0.1 });
  const poses = Array.from({ length: 25 }, (_, k) => ({
    // Poses alternate between a near and a far one.
    pose: place(random, k % 2 === 0 ? 30 : 60),
    zonesA: random() < 0.8 ? zonesOf(random) : [],
    zonesB: random() < 0.8 ? zonesOf(random) : [],
  }));

  it('give the results of zones that are cut away', () => {
    const kinds = new Set<string>();
    for (const { pose, zonesA, zonesB } of poses) {
      trimA.place(zonesA, ZONE_MM);
      trimB.place(zonesB, ZONE_MM);
      query.run(pose, 80);
      const cut = (mesh: Mesh, zones: Zone[]) => prepareBody(mesh, { zones, chordErrorMm: 0 });
      const expected = new PairQuery(cut(meshA, zonesA), cut(meshB, zonesB), { depthToleranceMm: 0.1 });
      expected.run(pose, 80);
      kinds.add(expected.kind);
      const errorMm = query.errorMm + expected.errorMm;
      expect(query.kind === 'overlapping').toBe(expected.kind === 'overlapping');
      if (expected.kind === 'beyond') expect(query.kind).toBe('beyond');
      else expect(Math.abs(query.distanceMm - expected.distanceMm)).toBeLessThanOrEqual(errorMm);
    }
    expect(kinds.size).toBeGreaterThan(1);
  });

  it('give the sign of the margin like the full depth', () => {
    let deeper = 0;
    for (const { pose, zonesA, zonesB } of poses) {
      trimA.place(zonesA, ZONE_MM);
      trimB.place(zonesB, ZONE_MM);
      query.run(pose, 80);
      const { kind, distanceMm, errorMm, surfaceErrorMm } = query;
      for (const beyondMm of [-2, 0, 1, 3]) {
        query.runUntilDeeper(pose, 80, beyondMm, 20_000);
        if (kind !== 'overlapping') {
          expect(query.kind).toBe(kind);
          if (kind === 'separated') expect(query.distanceMm).toBe(distanceMm);
          continue;
        }
        // The point is no deeper than the deepest, and is found if the deepest is deep enough.
        expect(query.kind).toBe('overlapping');
        expect(query.distanceMm + surfaceErrorMm).toBeGreaterThanOrEqual(distanceMm - errorMm);
        if (-distanceMm > Math.max(0, beyondMm + surfaceErrorMm)) {
          deeper += 1;
          expect(-query.distanceMm + 1e-9).toBeGreaterThan(beyondMm + surfaceErrorMm);
        }
      }
    }
    expect(deeper).toBeGreaterThan(0);
  });
});
