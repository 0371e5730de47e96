import { describe, expect, it } from 'vitest';
import { translation } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { Prover, stepsOfPair } from '../../src/proof/prove.ts';
import { BetweenProver } from '../../src/proof/proveBetween.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { box, moved } from '../oracles/shapes.ts';
import { shapeCorner, sweepOf } from '../sweep/shapeCorner.ts';

describe('a pair with one part covered by the zone of intended contact', () => {
  const centre: Vec3 = [0, 500, 300];
  const setup = shapeCorner(
    randomCorner(1),
    [
      { carrier: 'chassis', mesh: moved(box(4, 4, 4), translation(centre)) },
      { carrier: 'upright', mesh: moved(box(20, 20, 20), translation([0, 540, 300])) },
    ],
    { travelSteps: 3, steerSteps: 3 },
    [{ shape: 'sphere', centre, radiusMm: 5 }],
  );

  it('is not proved', () => {
    const result = sweepOf(setup);
    expect(new Prover(setup, result).prove(0, stepsOfPair(result, 0))).toMatchObject({
      lowerMm: Number.NEGATIVE_INFINITY,
      at: undefined,
      complete: false,
    });
    // It is not proved either if the steps were measured without the zone.
    const measured = {
      ...result,
      state: result.state.map(() => 1),
      clearanceMm: result.clearanceMm.map(() => 30),
    };
    expect(new Prover(setup, measured).prove(0, stepsOfPair(measured, 0))).toMatchObject({
      lowerMm: Number.NEGATIVE_INFINITY,
      complete: false,
    });
  });

  it('is not proved between two poses, whether it moves or not', () => {
    const ways = [setup, { ...setup, pairs: setup.pairs.map((pair) => ({ ...pair, moves: false })) }];
    for (const one of ways) {
      const proved = new BetweenProver(one).lowerMm(
        0,
        { travelMm: 0, steer: 0 },
        { travelMm: 5, steer: 0 },
        10,
      );
      expect(proved).toBe(Number.NEGATIVE_INFINITY);
    }
  });
});
