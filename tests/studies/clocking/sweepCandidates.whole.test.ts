import { expect, it } from 'vitest';
import { parseDesign } from '../../../src/design/parse.ts';
import { DesignProblems } from '../../../src/design/problem.ts';
import type { Findings } from '../../../src/findings/findings.ts';
import { sweepCandidates } from '../../../src/studies/clocking/sweepCandidates.ts';
import { measurePairsHere } from '../../../src/studies/vary/measurePairs.ts';
import { minimalCorner } from '../../design/fixtures.ts';

const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: 0.5 };

/** The findings of a sweep without what was proved of one pair. */
const unproved = (findings: Findings): Findings => ({
  ...findings,
  pairs: findings.pairs.map((one) => ({ ...one, provenMm: undefined })),
});

it('a candidate of which nothing is proved is told no least margin, and comes after those that are proved', async () => {
  const parsed = parseDesign(JSON.stringify(minimalCorner()));
  if (parsed.kind === 'bad') throw new DesignProblems(parsed.problems);
  const { design } = parsed;
  // One and the same: only what is proved of them tells them apart.
  const candidates = [1, 2, 3].map((id) => ({ id, caliperDeg: 90, hubDeg: 0 }));
  let measured = 0;
  const swept = await sweepCandidates(candidates, () => design, {
    settings: SETTINGS,
    async measure(setup, signal, onShare) {
      measured += 1;
      const findings = await measurePairsHere(setup, signal, onShare);
      const counts = { ...findings.counts, touches: 0 };
      const pairs = findings.pairs.filter(({ state }) => state !== 'touches');
      const clear = { ...findings, counts, pairs };
      return measured === 2 ? clear : unproved(clear);
    },
  });
  expect(swept.map(({ candidate }) => candidate.id)).toEqual([2, 1, 3]);
  expect(swept.map(({ isProved }) => isProved)).toEqual([true, false, false]);
  const [proved, open] = swept.map(({ worst }) => worst);
  if (proved?.leastMm === undefined || open === undefined) throw new Error('both come near to something');
  expect(proved.leastMm).toBeLessThanOrEqual(proved.marginMm - proved.errorMm);
  expect(open.leastMm).toBeUndefined();
});
