import { describe, expect, it } from 'vitest';
import { sweepInProcess } from '../../../src/executors/inProcess.ts';
import { rangeAxis } from '../../../src/studies/vary/rangeAxis.ts';
import { variedField, withAmount } from '../../../src/studies/vary/variedField.ts';
import { varyCorner } from '../../../src/studies/vary/vary.ts';
import type { SweepSettings } from '../../../src/sweep/result.ts';
import { setUp } from '../../../src/sweep/setUp.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';
import { between, cases, mulberry32 } from '../../oracles/random.ts';
import { box, boxCorner, FEW_STEPS } from './boxCorner.ts';

const CARRIERS = ['chassis', 'lowerArm', 'upperArm', 'upright', 'tieRod'];
const FINE = { ...FEW_STEPS, travelSteps: 61, steerSteps: 41 };
/** Allowance for poses that miss the worst one. */
const FINER = { ...FEW_STEPS, travelSteps: 241, steerSteps: 161 };
/** Margin that a proof may leave unproved. */
const PROOF_MM = 0.1;

/** Boxes near the upright of a real suspension, the first one on the upright. */
function randomBoxes(random: () => number) {
  const size = () => [between(random, 10, 60), between(random, 10, 60), between(random, 10, 60)];
  const centre = () => [between(random, -80, 80), between(random, 560, 720), between(random, 260, 480)];
  return [
    box('moved', 'upright', centre(), size()),
    ...Array.from({ length: 4 }, (_, k) =>
      box(`box${k}`, CARRIERS[Math.floor(random() * CARRIERS.length)], centre(), size()),
    ),
  ];
}

/** Smallest margin, less errors, over every pair of `moved` at many poses; Infinity if all are far. */
async function bruteForceMm(source: unknown, settings: SweepSettings): Promise<number> {
  const setup = await setUp(readDesign(source), settings);
  const { pairs, clearanceMm, errorMm, poseState } = await sweepInProcess(setup);
  let leastMm = Number.POSITIVE_INFINITY;
  pairs.forEach(({ a, b, targetMm }, p) => {
    if (setup.solids[a].id !== 'moved' && setup.solids[b].id !== 'moved') return;
    for (let at = p * poseState.length; at < (p + 1) * poseState.length; at++)
      if (clearanceMm[at] < Number.POSITIVE_INFINITY)
        leastMm = Math.min(leastMm, clearanceMm[at] - errorMm[at] - targetMm);
  });
  return leastMm;
}

describe('a study compared with many poses of random corners', () => {
  it.each([14, 13, 12, 11].slice(0, cases(1, 4)))(
    'agrees with them, values of a border too: seed %d',
    async (seed) => {
      const random = mulberry32(seed);
      const source = boxCorner(randomBoxes(random), { suspension: minimalCorner().suspension, unit: 'mm' });
      const field = variedField(source, 'moved.centre[1]');
      const axis = rangeAxis(field, { from: 480, to: 780, step: 50 }, 'mm');
      const study = await varyCorner(readDesign(source), [axis], { settings: FEW_STEPS });
      const borders = (study.intervals ?? []).flatMap(({ first, last, below, above }) => [
        ...(below === undefined ? [] : [below, { values: [first], tried: { verdict: 'fits' } }]),
        ...(above === undefined ? [] : [above, { values: [last], tried: { verdict: 'fits' } }]),
      ]);
      for (const { values, tried } of [...study.cells, ...borders]) {
        const amount = values[0].amount as number;
        const variant = withAmount(source, field, amount);
        const leastMm = await bruteForceMm(variant, FINE);
        if (tried.verdict === 'fits') expect([amount, leastMm]).toEqual([amount, Math.max(leastMm, 0)]);
        else if (leastMm > PROOF_MM)
          expect([amount, (await bruteForceMm(variant, FINER)) <= PROOF_MM]).toEqual([amount, true]);
      }
      expect(study.concernedCount).toBeGreaterThan(1);
      expect(new Set(study.cells.map(({ tried }) => tried.verdict))).toContain('fails');
    },
  );
});
