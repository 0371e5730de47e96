import { describe, expect, it } from 'vitest';
import { withHeldHub } from '../../../src/solids/heldHub.ts';
import { type Effect, sensitivityOf } from '../../../src/studies/sensitivity/sensitivity.ts';
import { STEPS } from '../../../src/studies/sensitivity/variants.ts';
import { sweepAndProveHere } from '../../../src/studies/vary/measurePairs.ts';
import { typedAmount } from '../../../src/studies/vary/typedAmount.ts';
import { withAmount } from '../../../src/studies/vary/variedField.ts';
import { pairId } from '../../../src/sweep/pair.ts';
import { buildCorner, withBodies } from '../../../src/sweep/setUp.ts';
import { readDesign } from '../../design/readDesign.ts';
import { cases, mulberry32 } from '../../oracles/random.ts';
import { randomWholeCorner } from '../../oracles/randomWholeCorner.ts';
import { COARSE } from './fewParts.ts';

const FIRST_SEED = 4100;
/** Of the proof of a clearance, mm. */
const OPEN_MM = 0.1;
const VALUES = 3;

/** Random corners with all of their parts: whole sweeps and proofs of a pair in changed corners, without `Variants`. */
describe('slopes of random corners agree with finite differences of whole sweeps and proofs', () => {
  it.each(Array.from({ length: cases(1, 30) }, (_, k) => FIRST_SEED + k))('seed %i', async (seed) => {
    const random = mulberry32(seed);
    const { design, setup } = await randomWholeCorner(seed, COARSE);
    const moving = setup.pairs.filter(({ moves }) => moves);
    let compared = 0;
    // Most pairs are far.
    for (let tries = 0; tries < 40 && compared === 0; tries++) {
      const pair = moving[Math.floor(moving.length * random())];
      const between = [setup.solids[pair.a].id, setup.solids[pair.b].id] as const;
      const id = pairId(setup.solids, pair);
      const [studied] = (await sensitivityOf(design, { settings: COARSE, among: [between] })).pairs;
      if (studied === undefined) continue;
      const worstIn = async ({ value }: Effect, by: number) => {
        const source = withAmount(
          design.source,
          value.field,
          typedAmount(design, value.field, value.input) + by,
        );
        const built = await buildCorner(withHeldHub(readDesign(source)), COARSE);
        const changed = built.pairs.filter((one) => pairId(built.solids, one) === id);
        const { findings } = await sweepAndProveHere(withBodies({ ...built, pairs: changed }), []);
        return findings.pairs[0].worst;
      };
      const steep = studied.effects.filter(
        ({ rate: { both }, value }) => both !== undefined && both.error < 1 && value.problems.length === 0,
      );
      for (const effect of steep.slice(0, VALUES)) {
        const step = STEPS[effect.value.field.kind];
        const [low, high] = [await worstIn(effect, -step), await worstIn(effect, step)];
        const { both } = effect.rate;
        if (low === undefined || high === undefined || both === undefined) continue;
        const slope = (high.clearanceMm - low.clearanceMm) / (2 * step);
        const error = both.error + (low.errorMm + high.errorMm + 2 * OPEN_MM) / (2 * step);
        const what = `seed ${seed}, ${between.join(' and ')}, ${effect.value.field.name}: ${slope}, study ${both.perUnit}`;
        expect(Math.abs(slope - both.perUnit), what).toBeLessThanOrEqual(error);
        compared += 1;
      }
    }
    expect(compared, `seed ${seed}`).toBeGreaterThan(0);
  });
});
