import { expect, it } from 'vitest';
import { measure } from '../../src/clearance/query.ts';
import { compose, invert } from '../../src/math/rigid.ts';
import { solvePose } from '../../src/mechanism/solvePose.ts';
import { type PartResult, type ProvedPair, Prover, runToEnd, stepsOfPair } from '../../src/proof/prove.ts';
import { MovedBoxes } from '../../src/proof/proveBoxes.ts';
import { divideAtLockOuts } from '../../src/proof/proveLockedOut.ts';
import { PairProver } from '../../src/proof/provePair.ts';
import type { Effort } from '../../src/proof/proveParts.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { randomShapes, shapeCorner, sweepOf } from '../sweep/shapeCorner.ts';

/** A seed whose shapes need many evaluations. */
const SEED = 11;

function corner() {
  const suspension = randomCorner(SEED);
  const setup = shapeCorner(suspension, randomShapes(mulberry32(SEED), suspension), {
    travelSteps: 3,
    steerSteps: 3,
  });
  const result = sweepOf(setup);
  const { cells } = divideAtLockOuts(setup, result);
  const proverOf = (pair: number, budget?: Effort, undivided?: Effort) =>
    new PairProver(setup, result, cells, new MovedBoxes(), pair, { toleranceMm: 0.1, budget, undivided });
  const prove = (pair: number, budget?: Effort): ProvedPair => {
    const outcome = runToEnd(proverOf(pair, budget).prove(stepsOfPair(result, pair)));
    if (outcome.kind === 'divided') throw new Error('a small proof was divided');
    return outcome.proved;
  };
  return { setup, result, prove, proverOf };
}

it('leaves a pair unproved if its evaluations are spent, and keeps the clearance found', () => {
  const { setup, result, prove } = corner();
  const whole = setup.pairs.map((_, pair) => prove(pair)).filter(({ evaluations }) => evaluations > 5000);
  expect(whole.length, `seed ${SEED}`).toBeGreaterThan(0);
  for (const { pair, complete, lowerMm, evaluations } of whole) {
    expect(complete).toBe(true);
    const short = prove(pair, { cells: 3000, evaluations: 100 });
    expect(short).toMatchObject({ complete: false, lowerMm: Number.NEGATIVE_INFINITY });
    const steps = result.poseState.length;
    const leastMm = Math.min(...result.clearanceMm.subarray(pair * steps, (pair + 1) * steps));
    expect(short.foundMm).toBeLessThanOrEqual(leastMm);
    // The tolerance doubles from 0.1 mm to the clearance found, with a budget each; the last evaluation of a cell may
    // exceed it by one.
    expect(short.evaluations).toBeLessThan(Math.min(evaluations, 110 * (2 + Math.log2(short.foundMm / 0.1))));
    expect(prove(pair, { cells: 3000, evaluations: 100 })).toEqual(short);
    expect(lowerMm).toBeGreaterThan(0);
  }
});

it('gives a divided proof that is the same in any order of its parts, valid, and as tight as an undivided one', () => {
  const { setup, result, proverOf, prove } = corner();
  const many = setup.pairs.map((_, pair) => prove(pair)).filter(({ cells }) => cells > 30);
  expect(many.length, `seed ${SEED}`).toBeGreaterThan(0);
  for (const whole of many) {
    const { pair } = whole;
    const inOrder = (order: (parts: number[]) => number[]): { proved: ProvedPair; rounds: number } => {
      // A new prover for each part and copied data, as on threads.
      const fresh = () => proverOf(pair, undefined, { cells: 4, evaluations: 1e9 });
      let outcome = runToEnd(fresh().prove(stepsOfPair(result, pair)));
      let rounds = 0;
      for (; outcome.kind === 'divided'; rounds++) {
        const divided = structuredClone(outcome);
        const results: PartResult[] = [];
        for (const part of order(divided.parts.map((_, k) => k)))
          results[part] = structuredClone(runToEnd(fresh().searchPart(divided, divided.parts[part])));
        outcome = fresh().merge(divided, results);
      }
      return { proved: outcome.proved, rounds };
    };
    const forward = inOrder((parts) => parts);
    expect(forward.rounds).toBeGreaterThan(0);
    expect(inOrder((parts) => parts.reverse())).toEqual(forward);
    const { proved } = forward;
    expect(proved.complete).toBe(true);
    const { a, b } = setup.pairs[pair];
    const bodies = setup.bodies[pair];
    const random = mulberry32(SEED);
    const [low, high] = [setup.travelMm[0], setup.travelMm[setup.travelMm.length - 1]];
    for (let n = 0; n < 200; n++) {
      const pose = solvePose(setup.mechanism, between(random, low, high), between(random, -1, 1));
      if (pose.kind !== 'solved') continue;
      const [fromA, fromB] = [a, b].map((solid) => pose.carriers[setup.solids[solid].carrier]);
      const found = measure(bodies.a, bodies.b, compose(invert(fromA), fromB));
      if (found.kind !== 'separated') throw new Error(`seed ${SEED}, pair ${pair}, pose ${n}: ${found.kind}`);
      expect(found.distanceMm, `seed ${SEED}, pair ${pair}, pose ${n}`).toBeGreaterThanOrEqual(
        proved.lowerMm,
      );
    }
    // Both intervals contain the smallest clearance.
    expect(proved.lowerMm).toBeLessThanOrEqual(whole.foundMm);
    expect(whole.lowerMm).toBeLessThanOrEqual(proved.foundMm);
    expect(proved.foundMm - proved.lowerMm).toBeLessThanOrEqual(
      Math.max(0.1, proved.foundMm - whole.lowerMm) + 1e-9,
    );
  }
});

it('reports each cell of a proof that is run cell by cell', () => {
  const { setup, result } = corner();
  const prover = new Prover(setup, result);
  setup.pairs.forEach((_, pair) => {
    const reported: number[] = [];
    const proved = runToEnd(prover.stepThrough(pair, stepsOfPair(result, pair)), (cells) =>
      reported.push(cells),
    );
    expect(reported).toEqual(Array.from({ length: proved.cells }, (__, k) => k + 1));
  });
});
