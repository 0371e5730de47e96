import { describe, expect, it } from 'vitest';
import { PairQuery } from '../../src/clearance/query.ts';
import { compose, invert } from '../../src/math/rigid.ts';
import { solvePose } from '../../src/mechanism/mechanism.ts';
import { BetweenProver, type Place } from '../../src/proof/proveBetween.ts';
import type { Setup } from '../../src/sweep/setUp.ts';
import { mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { randomShapes, shapeCorner } from '../sweep/shapeCorner.ts';

/** Rounding differences between the enclosure, the solver and the triangle distance, mm. */
const ROUNDING_MM = 1e-7;
const SAMPLES = 40;

/** Clearances of a pair at evenly spaced poses from one to another, both included; undefined if one is unreachable. */
function along(setup: Setup, pair: number, from: Place, to: Place): number[] | undefined {
  const { a, b } = setup.pairs[pair];
  const { a: bodyA, b: bodyB } = setup.bodies[pair];
  const query = new PairQuery(bodyA, bodyB);
  const clearances: number[] = [];
  for (let k = 0; k <= SAMPLES; k++) {
    const part = (one: number, other: number) => one + ((other - one) * k) / SAMPLES;
    const pose = solvePose(setup.mechanism, part(from.travelMm, to.travelMm), part(from.steer, to.steer));
    if (pose.kind !== 'solved') return undefined;
    const carrierOf = (solid: number) => pose.carriers[setup.solids[solid].carrier];
    query.run(compose(invert(carrierOf(a)), carrierOf(b)), Number.POSITIVE_INFINITY);
    clearances.push(query.distanceMm);
  }
  return clearances;
}

describe('the proof between two neighbouring poses', () => {
  it('gives a bound that no pose on the path violates, for random corners and shapes', () => {
    let paths = 0;
    let proved = 0;
    let dips = 0;
    for (let seed = 1; seed <= 25; seed++) {
      const suspension = randomCorner(seed);
      const random = mulberry32(31000 + seed);
      const setup = shapeCorner(suspension, randomShapes(random, suspension), {
        travelSteps: 5,
        steerSteps: 5,
      });
      const prover = new BetweenProver(setup);
      setup.pairs.forEach((_, pair) => {
        const byTravel = random() < 0.5;
        const [t, s] = [Math.floor(4 * random()), Math.floor(4 * random())];
        const from = { travelMm: setup.travelMm[t], steer: setup.steer[s] };
        const to = {
          travelMm: setup.travelMm[byTravel ? t + 1 : t],
          steer: setup.steer[byTravel ? s : s + 1],
        };
        const clearances = along(setup, pair, from, to);
        if (clearances === undefined) return;
        const leastMm = Math.min(clearances[0], clearances[SAMPLES]);
        if (!(leastMm > 0.5)) return;
        const lowerMm = prover.lowerMm(pair, from, to, leastMm);
        const least = Math.min(...clearances);
        paths += 1;
        expect(
          least,
          `seed ${seed}, pair ${pair}, ${JSON.stringify({ from, to, lowerMm })}`,
        ).toBeGreaterThanOrEqual(lowerMm - ROUNDING_MM);
        expect(lowerMm).toBeLessThan(leastMm);
        if (Number.isFinite(lowerMm)) proved += 1;
        if (least < leastMm - 0.4) dips += 1;
      });
    }
    expect(paths).toBeGreaterThan(80);
    // Most bounds are proved, and some paths have a smaller clearance than both their ends.
    expect(proved / paths).toBeGreaterThan(0.9);
    expect(dips).toBeGreaterThan(2);
  });

  it('proves nothing for parts that touch at an end', () => {
    const suspension = randomCorner(1);
    const setup = shapeCorner(suspension, randomShapes(mulberry32(1), suspension), {
      travelSteps: 3,
      steerSteps: 3,
    });
    const place = { travelMm: 0, steer: 0 };
    expect(new BetweenProver(setup).lowerMm(0, place, { travelMm: 1, steer: 0 }, 0)).toBe(
      Number.NEGATIVE_INFINITY,
    );
  });

  it('proves nothing across straight ahead, because the two locks may differ', () => {
    const suspension = randomCorner(1);
    const setup = shapeCorner(suspension, randomShapes(mulberry32(1), suspension), {
      travelSteps: 3,
      steerSteps: 3,
    });
    const pair = setup.pairs.findIndex(({ moves }) => moves);
    const lowerMm = (steer: number) =>
      new BetweenProver(setup).lowerMm(
        pair,
        { travelMm: 0, steer },
        { travelMm: 0, steer: steer + 0.02 },
        0.05,
      );
    expect(lowerMm(-0.01)).toBe(Number.NEGATIVE_INFINITY);
    expect(lowerMm(0)).toBeGreaterThan(0);
  });
});
