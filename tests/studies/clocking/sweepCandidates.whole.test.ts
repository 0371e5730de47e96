import { expect, it } from 'vitest';
import type { Findings } from '../../../src/findings/findings.ts';
import { sweepCandidates } from '../../../src/studies/clocking/sweepCandidates.ts';
import { measurePairsHere } from '../../../src/studies/vary/measurePairs.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: 0.5 };

/** The findings of a sweep without the proof of one pair. */
const unproved = (findings: Findings): Findings => ({
  ...findings,
  pairs: findings.pairs.map((one) => ({ ...one, provenMm: undefined })),
});

it('gives a candidate without a proof no proven margin, and ranks it after proved ones', async () => {
  const design = readDesign(minimalCorner());
  // The same clockings twice: the candidates differ only in what is proved.
  const candidates = [1, 2, 3].map((id) => ({ id, caliperDeg: 90, hubDeg: 0 }));
  let measured = 0;
  const swept = await sweepCandidates(candidates, () => design, {
    settings: SETTINGS,
    async measure(setup, limits, signal, onShare) {
      measured += 1;
      const findings = await measurePairsHere(setup, limits, signal, onShare);
      const counts = { ...findings.counts, touches: 0 };
      const pairs = findings.pairs.filter(({ state }) => state !== 'touches');
      const clear = { ...findings, counts, pairs };
      return measured === 2 ? clear : unproved(clear);
    },
  });
  expect(swept.map(({ candidate }) => candidate.id)).toEqual([2, 1, 3]);
  expect(swept.map(({ isProved }) => isProved)).toEqual([true, false, false]);
  const [proved, open] = swept.map(({ worst }) => worst);
  if (proved?.leastMm === undefined || open === undefined) throw new Error('expected a worst case of both');
  expect(proved.leastMm).toBeLessThanOrEqual(proved.marginMm - proved.errorMm);
  expect(open.leastMm).toBeUndefined();
});

it("includes the corner's joints and dampers in a candidate's findings and verdict", async () => {
  const corner = minimalCorner();
  for (const part of corner.parts) if (part.id === 'lowerUniball') Object.assign(part, { allowedTiltDeg: 4 });
  const design = readDesign(corner);
  let given = 0;
  const swept = await sweepCandidates([{ caliperDeg: 90, hubDeg: 0 }], () => design, {
    settings: SETTINGS,
    async measure(setup, limits, signal, onShare) {
      given = limits.length;
      // No pairs, only joints and dampers.
      return measurePairsHere({ ...setup, pairs: [], bodies: [] }, limits, signal, onShare);
    },
  });
  expect(given).toBeGreaterThan(1);
  const [{ findings }] = swept;
  expect(findings.limits).toHaveLength(given);
  expect(findings.limits[0]).toMatchObject({ label: 'lowerUniball', state: 'binds', allowed: 4 });
  expect([findings.verdict, findings.counts.touches]).toEqual(['touches', 0]);
});
