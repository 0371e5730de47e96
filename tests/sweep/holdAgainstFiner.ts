import { expect } from 'vitest';
import { FAR_MM, Prover, stepsOfPair } from '../../src/sweep/prove.ts';
import { mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { isIn, leastOfFiner, lowerStill } from './finerSweep.ts';
import { randomShapes, shapeCorner, sweepOf } from './shapeCorner.ts';

/** Between the pose of the enclosure and that of the solver, and of the distance of triangles. */
const ROUNDING_MM = 1e-7;

/** What was held against a finer sweep: pairs, those closed in on, and of these the widest interval. */
export interface Held {
  pairs: number;
  closedIn: number;
  touching: number;
  widestMm: number;
  cells: number;
}

/**
 * Proves a random corner of four random shapes from a sweep of 3 x 3 steps, and holds the proof against a sweep 20 times
 * finer, and against a walk from its worst case to what is worse still beside it.
 */
export function holdAgainstFiner(seed: number, toleranceMm: number): Held {
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
  const held: Held = { pairs: setup.pairs.length, closedIn: 0, touching: 0, widestMm: 0, cells: 0 };
  setup.pairs.forEach((pair, p) => {
    const proved = prover.prove(p, stepsOfPair(result, p));
    const where = `seed ${seed}, pair ${p} of ${setup.solids[pair.a].carrier} and ${setup.solids[pair.b].carrier}: ${JSON.stringify(proved)}`;
    held.cells += proved.cells;
    // Where the mechanism locks out clearances change ever more steeply; there alone a proof may give up its tolerance.
    if (lockedOut.length === 0) expect(proved.complete, where).toBe(true);
    if (proved.foundMm <= 0) {
      held.touching += 1;
      return;
    }
    expect(least[p].clearanceMm, where).toBeGreaterThanOrEqual(proved.lowerMm - ROUNDING_MM);
    const farMm = pair.targetMm + FAR_MM;
    if (proved.foundMm >= farMm) {
      expect(proved.lowerMm, where).toBeGreaterThanOrEqual(farMm - toleranceMm);
      return;
    }
    if (proved.complete) {
      held.closedIn += 1;
      held.widestMm = Math.max(held.widestMm, proved.foundMm - proved.lowerMm);
      expect(proved.foundMm - proved.lowerMm, where).toBeLessThanOrEqual(toleranceMm + 1e-12);
    }
    const lower = lowerStill(setup, p, least[p], lockedOut).clearanceMm;
    expect(lower, where).toBeGreaterThanOrEqual(proved.lowerMm - ROUNDING_MM);
  });
  return held;
}
