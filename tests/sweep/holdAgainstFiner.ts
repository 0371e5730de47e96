import { expect } from 'vitest';
import { FAR_MM, Prover, stepsOfPair } from '../../src/proof/prove.ts';
import { mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { descendFrom, isIn, leastOfFiner } from './finerSweep.ts';
import { randomShapes, shapeCorner, sweepOf } from './shapeCorner.ts';

/** Rounding differences between the enclosure, the solver and the triangle distance, mm. */
const ROUNDING_MM = 1e-7;

/** Counts of a comparison: all pairs, bounded pairs with their widest interval, touching pairs, and cells. */
export interface ComparisonCounts {
  pairs: number;
  bounded: number;
  touching: number;
  widestMm: number;
  cells: number;
}

/**
 * Proves a random corner of four random shapes from a sweep of 3 x 3 steps. Compares the proof with a sweep 20 times
 * finer and with a descent from its worst case. Fails if either finds less than the proven bound.
 */
export function holdAgainstFiner(seed: number, toleranceMm: number): ComparisonCounts {
  const suspension = randomCorner(seed);
  const shapes = randomShapes(mulberry32(5000 + seed), suspension);
  const setup = shapeCorner(suspension, shapes, { travelSteps: 3, steerSteps: 3 });
  const result = sweepOf(setup);
  const prover = new Prover(setup, result, toleranceMm);
  const { lockedOut } = prover;
  const { least, unreachable } = leastOfFiner(setup, 20, lockedOut);
  for (const { travelMm, steer } of unreachable)
    expect(
      lockedOut.some((part) => isIn(part, travelMm, steer)),
      `seed ${seed}: travel ${travelMm} mm, steer ${steer} is unreachable and not locked out`,
    ).toBe(true);
  const counts: ComparisonCounts = {
    pairs: setup.pairs.length,
    bounded: 0,
    touching: 0,
    widestMm: 0,
    cells: 0,
  };
  setup.pairs.forEach((pair, p) => {
    const proved = prover.prove(p, stepsOfPair(result, p));
    const where = `seed ${seed}, pair ${p} of ${setup.solids[pair.a].carrier} and ${setup.solids[pair.b].carrier}: ${JSON.stringify(proved)}`;
    counts.cells += proved.cells;
    // Near a lock-out clearances change ever more steeply; only there may a proof give up its tolerance.
    if (lockedOut.length === 0) expect(proved.complete, where).toBe(true);
    if (proved.foundMm <= 0) {
      counts.touching += 1;
      return;
    }
    expect(least[p].clearanceMm, where).toBeGreaterThanOrEqual(proved.lowerMm - ROUNDING_MM);
    const farMm = pair.targetMm + FAR_MM;
    if (proved.foundMm >= farMm) {
      expect(proved.lowerMm, where).toBeGreaterThanOrEqual(farMm - toleranceMm);
      return;
    }
    if (proved.complete) {
      counts.bounded += 1;
      counts.widestMm = Math.max(counts.widestMm, proved.foundMm - proved.lowerMm);
      expect(proved.foundMm - proved.lowerMm, where).toBeLessThanOrEqual(toleranceMm + 1e-12);
    }
    const lower = descendFrom(setup, p, least[p], lockedOut).clearanceMm;
    expect(lower, where).toBeGreaterThanOrEqual(proved.lowerMm - ROUNDING_MM);
  });
  return counts;
}
