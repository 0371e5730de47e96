import { describe, expect, it } from 'vitest';
import { drawnMesh } from '../../../../src/app/workers/drawing/drawnMesh.ts';
import { type Shade, shadeCorner } from '../../../../src/app/workers/tint/shadeCorner.ts';
import { measure } from '../../../../src/clearance/query.ts';
import { applyPoint, compose, identity, invert, translation } from '../../../../src/math/rigid.ts';
import { solvePose } from '../../../../src/mechanism/mechanism.ts';
import type { Carriers } from '../../../../src/mechanism/pose.ts';
import type { Setup } from '../../../../src/sweep/setUp.ts';
import { bruteForcePointDistance } from '../../../oracles/bruteForce.ts';
import { mulberry32 } from '../../../oracles/random.ts';
import { box, moved } from '../../../oracles/shapes.ts';
import { benchCorner } from '../../../solids/benchCorner.ts';
import { randomShapes, shapeCorner } from '../../../sweep/shapeCorner.ts';

const SEED = 88;
const STEPS = { travelSteps: 3, steerSteps: 3 };

function carriersAt(setup: Setup, travelMm: number, steer: number): Carriers {
  const pose = solvePose(setup.mechanism, travelMm, steer);
  if (pose.kind !== 'solved') throw new Error('the pose is out of reach');
  return pose.carriers;
}

const shadesOf = (setup: Setup, carriers: Carriers): Shade[] =>
  [...shadeCorner(setup, carriers, (solid) => drawnMesh(setup.solids[solid].mesh))]
    .filter((shade) => shade !== undefined)
    .sort((a, b) => a.solid - b.solid);

describe('surfaces of two blocks', () => {
  // A block of 40 on the chassis; above it, 3 mm off and turned with nothing, one of 40 on the upright. Target 40 mm.
  const gapMm = 3;
  const targetMm = 7;
  const { suspension } = benchCorner();
  const blocks = shapeCorner(
    suspension,
    [
      { carrier: 'chassis', mesh: box(40, 40, 40) },
      { carrier: 'upright', mesh: moved(box(40, 40, 40), translation([0, 0, 40 + gapMm])) },
    ],
    STEPS,
  );
  const setup = { ...blocks, pairs: blocks.pairs.map((pair) => ({ ...pair, targetMm })) };
  const [lower] = shadesOf(setup, carriersAt(setup, 0, 0));

  it('are the gap apart over the whole of the faces that look at each other', () => {
    const { sampled, least } = lower;
    if (sampled === undefined) throw new Error('nothing was measured');
    let faced = 0;
    sampled.clearanceMm.forEach((mm, v) => {
      const z = sampled.positions[3 * v + 2];
      expect(mm).toBeCloseTo(Math.min(30, gapMm + 20 - z), 4);
      if (z === 20) faced += 1;
    });
    expect(faced).toBeGreaterThan(100);
    const { a, b } = setup.bodies[0];
    const errorMm = expect.closeTo(a.chordErrorMm + b.chordErrorMm, 6);
    expect(least).toEqual({
      clearanceMm: expect.closeTo(gapMm, 9),
      errorMm,
      surfaceErrorMm: errorMm,
      pair: 0,
    });
  });

  it('have the contour of the target where the sides have come as far from the other block', () => {
    const { sampled } = lower;
    if (sampled === undefined) throw new Error('nothing was measured');
    const { triangles, marginMm, positions } = sampled;
    const crossings: number[] = [];
    for (let i = 0; i < triangles.length; i++) {
      const [v, w] = [triangles[i], triangles[i - (i % 3) + ((i + 1) % 3)]];
      if (marginMm[v] < 0 === marginMm[w] < 0) continue;
      const t = marginMm[v] / (marginMm[v] - marginMm[w]);
      crossings.push(positions[3 * v + 2] + t * (positions[3 * w + 2] - positions[3 * v + 2]));
    }
    expect(crossings.length).toBeGreaterThan(50);
    for (const z of crossings) expect(z).toBeCloseTo(20 - (targetMm - gapMm), 4);
  });

  it('have the contour of contact where the one goes into the other', () => {
    const sunk = { ...carriersAt(setup, 0, 0), upright: translation([0, 0, -gapMm - 5]) };
    const [shade] = shadesOf(setup, { ...sunk, chassis: identity() });
    const { sampled } = shade;
    if (sampled === undefined) throw new Error('nothing was measured');
    // The top of the lower block stands 5 mm deep in the upper one, whose sides are flush with its own.
    const top = [...sampled.clearanceMm].filter((_, v) => {
      const [x, y, z] = sampled.positions.subarray(3 * v, 3 * v + 3);
      return z === 20 && Math.abs(x) < 10 && Math.abs(y) < 10;
    });
    expect(top.length).toBeGreaterThan(10);
    for (const mm of top) expect(mm).toBeCloseTo(-5, 4);
  });

  it('are not measured where nothing is near', () => {
    const apart = { ...carriersAt(setup, 0, 0), upright: translation([0, 0, 300]) };
    expect(shadesOf(setup, apart)).toEqual([
      { solid: 0, sampled: undefined, least: undefined },
      { solid: 1, sampled: undefined, least: undefined },
    ]);
  });
});

describe(`surfaces of random shapes (seed ${SEED})`, () => {
  const random = mulberry32(SEED);

  it('hold the clearance of each pair among their samples, and what every triangle tried gives at them', () => {
    const { suspension } = benchCorner();
    let near = 0;
    for (let round = 0; round < 12; round++) {
      const setup = shapeCorner(suspension, randomShapes(random, suspension), STEPS);
      const carriers = carriersAt(setup, 20 * (random() - 0.5), random() - 0.5);
      const posed = setup.solids.map(({ mesh, carrier }) => moved(mesh, carriers[carrier]));
      for (const { solid, sampled, least } of shadesOf(setup, carriers)) {
        const pairs = setup.pairs.flatMap(({ a, b }, pair) =>
          a === solid ? [{ pair, other: b }] : b === solid ? [{ pair, other: a }] : [],
        );
        const clearances = pairs.map(({ pair }) => {
          const { a, b } = setup.pairs[pair];
          const aFromB = invert(carriers[setup.solids[a].carrier]);
          const found = measure(
            setup.bodies[pair].a,
            setup.bodies[pair].b,
            compose(aFromB, carriers[setup.solids[b].carrier]),
          );
          return found.kind === 'separated' ? found.distanceMm : Number.NaN;
        });
        if (sampled === undefined || least === undefined || clearances.some(Number.isNaN)) continue;
        const leastOfPairs = Math.min(...clearances);
        expect(least.clearanceMm).toBeGreaterThanOrEqual(leastOfPairs - 1e-4);
        if (leastOfPairs < 5)
          expect(least.clearanceMm).toBeLessThanOrEqual(leastOfPairs + sampled.betweenMm + 1e-4);
        near += 1;
        const { carrier } = setup.solids[solid];
        for (let k = 0; k < 10; k++) {
          const v = Math.floor(random() * sampled.clearanceMm.length);
          const [x, y, z] = sampled.positions.subarray(3 * v, 3 * v + 3);
          const p = applyPoint(carriers[carrier], [x, y, z]);
          const wanted = Math.min(...pairs.map(({ other }) => bruteForcePointDistance(posed[other], p)));
          if (wanted < 29) expect(sampled.clearanceMm[v]).toBeCloseTo(wanted, 4);
        }
      }
    }
    expect(near).toBeGreaterThan(5);
  });
});
