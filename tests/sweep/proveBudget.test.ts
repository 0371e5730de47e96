import { expect, it } from 'vitest';
import { Prover, stepsOfPair } from '../../src/sweep/prove.ts';
import { MovedBoxes } from '../../src/sweep/proveBoxes.ts';
import { cutOut } from '../../src/sweep/proveLockedOut.ts';
import { PairProver, type ProvedPair } from '../../src/sweep/provePair.ts';
import { mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { randomShapes, shapeCorner, sweepOf } from './shapeCorner.ts';

/** A seed whose shapes keep clearances that take many looks. */
const SEED = 11;

function corner() {
  const suspension = randomCorner(SEED);
  const setup = shapeCorner(suspension, randomShapes(mulberry32(SEED), suspension), {
    travelSteps: 3,
    steerSteps: 3,
  });
  const result = sweepOf(setup);
  const { cells } = cutOut(setup, result);
  const prove = (pair: number, budget?: { cells: number; looks: number }): ProvedPair => {
    const proof = new PairProver(setup, result, stepsOfPair(result, pair), cells, new MovedBoxes(), pair, {
      toleranceMm: 0.1,
      budget,
    }).prove();
    for (;;) {
      const step = proof.next();
      if (step.done === true) return step.value;
    }
  };
  return { setup, result, prove };
}

it('leaves a pair unproved whose looks are spent, and keeps what was found', () => {
  const { setup, result, prove } = corner();
  const whole = setup.pairs.map((_, pair) => prove(pair)).filter(({ looks }) => looks > 5000);
  expect(whole.length, `seed ${SEED}`).toBeGreaterThan(0);
  for (const { pair, complete, lowerMm, looks } of whole) {
    expect(complete).toBe(true);
    const short = prove(pair, { cells: 3000, looks: 100 });
    expect(short).toMatchObject({ complete: false, lowerMm: Number.NEGATIVE_INFINITY });
    const steps = result.poseState.length;
    const leastMm = Math.min(...result.clearanceMm.subarray(pair * steps, (pair + 1) * steps));
    expect(short.foundMm).toBeLessThanOrEqual(leastMm);
    // The tolerance doubles from 0.1 mm to what is found, a budget each; the last look of a cell may be one too many.
    expect(short.looks).toBeLessThan(Math.min(looks, 110 * (2 + Math.log2(short.foundMm / 0.1))));
    expect(prove(pair, { cells: 3000, looks: 100 })).toEqual(short);
    expect(lowerMm).toBeGreaterThan(0);
  }
});

it('goes cell by cell to the same proof', () => {
  const { setup, result } = corner();
  const prover = new Prover(setup, result);
  setup.pairs.forEach((_, pair) => {
    const seen: number[] = [];
    const proved = prover.prove(pair, stepsOfPair(result, pair), (cells) => seen.push(cells));
    expect(seen).toEqual(Array.from({ length: proved.cells }, (__, k) => k + 1));
  });
});
