import { describe, expect, it } from 'vitest';
import type { LimitFinding } from '../../../src/findings/limitFindings.ts';
import type { Change } from '../../../src/studies/remedy/changedFile.ts';
import { clearsAll, type Ranked, ranked } from '../../../src/studies/remedy/ranking.ts';
import type { PairTrial } from '../../../src/studies/vary/pairTrial.ts';

const before = {
  camberDeg: -1,
  toeDeg: 0,
  casterDeg: 5,
  toeChangeDeg: 0.3,
  outboardLockDeg: 30,
  inboardLockDeg: undefined,
  scrubRadiusMm: 40,
  mechanicalTrailMm: 20,
  halfTrackMm: 800,
  travelMm: 200,
};
const pair = {} as PairTrial;

/** A remedy that changes a value by this much, mm. */
const remedy = (mm: number, given: Partial<Ranked> = {}): Ranked => ({
  failing: [],
  newlyFailing: [],
  newlyUnknown: [],
  binding: [],
  alignment: before,
  changes: [{ to: mm, choices: { from: 0 } } as Change],
  ...given,
});

describe('remedies are ranked', () => {
  const alignment = (given: object) => ({ alignment: { ...before, ...given } });
  const order = [
    remedy(5),
    remedy(-7),
    remedy(1, alignment({ halfTrackMm: 805 })),
    remedy(1, alignment({ mechanicalTrailMm: 12 })),
    remedy(1, alignment({ scrubRadiusMm: 30 })),
    remedy(1, alignment({ travelMm: 180 })),
    remedy(1, alignment({ toeChangeDeg: 0.5 })),
    remedy(1, alignment({ camberDeg: -2 })),
    remedy(1, alignment({ outboardLockDeg: 25 })),
    remedy(1, alignment({ toeChangeDeg: undefined })),
    remedy(1, { failing: [pair] }),
    remedy(1, { failing: [pair], newlyFailing: [pair] }),
    remedy(1, { failing: [pair, pair], newlyFailing: [pair, pair] }),
  ];

  it('by what else clears, then by alignment, then by size', () => {
    expect(ranked([...order].reverse(), before)).toEqual(order);
    expect(ranked(order, before).map((one) => order.indexOf(one))).toEqual(order.map((_, k) => k));
  });

  it('with everything clear only if no limit binds and no pair becomes unknown', () => {
    expect(clearsAll(order[0])).toBe(true);
    expect(clearsAll(remedy(1, { failing: [pair] }))).toBe(false);
    expect(clearsAll(remedy(1, { newlyUnknown: [pair] }))).toBe(false);
    expect(clearsAll(remedy(1, { binding: [{} as LimitFinding] }))).toBe(false);
  });
});
