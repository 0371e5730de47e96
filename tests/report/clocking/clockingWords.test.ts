import { expect, it } from 'vitest';
import { limitFindings } from '../../../src/findings/limitFindings.ts';
import { unchangingLimits, unmetLines } from '../../../src/report/clocking/clockingWords.ts';
import { figuresIn } from '../../../src/report/figures.ts';
import { inventedLimit } from '../../oracles/inventedLimit.ts';

const NAMES = ['Caliper ↔ Upper arm'];
const nameOf = (pair: number): string => {
  if (NAMES[pair] === undefined) throw new Error(`there is no pair ${pair}`);
  return NAMES[pair];
};
const clockings = { caliperDeg: 72, hubDeg: -45 };

it.each([
  [{ marginMm: -1.2, errorMm: 0.1, limitedBy: 0 }, 'Caliper ↔ Upper arm, 1.30 mm missing'],
  [{ marginMm: Number.NaN, errorMm: Number.NaN, limitedBy: 0 }, 'Caliper ↔ Upper arm cannot be told'],
  // Where a tool has room, but not so much that it is proved, no pair sets a margin.
  [
    { marginMm: Number.POSITIVE_INFINITY, errorMm: Number.NaN, limitedBy: -1 },
    'what is measured there keeps clear, by too little to be proved',
  ],
  [
    { marginMm: 1.3, errorMm: 0.1, limitedBy: 0 },
    'what is measured there keeps clear, by too little to be proved',
  ],
])('what is missing where no clocking clears: %o', (least, words) => {
  const unmet = { wants: [], contradiction: false, best: { clockings, least } };
  expect(unmetLines(nameOf, unmet, figuresIn('mm'))).toEqual([
    'No clocking at all clears.',
    `  least is missing with caliper at +72.0°, hub at −45.0°: ${words}`,
  ]);
});

it('says once which joints and dampers bind or are unknown at every clocking', () => {
  const binding = inventedLimit({ allowed: 20 });
  const unknown = inventedLimit({
    kind: 'damperOpen',
    label: 'Damper',
    unit: 'mm',
    allowed: undefined,
    allowedFrom: { how: 'missing', field: 'openLength', dimensions: [] },
  });
  const limits = limitFindings([inventedLimit(), unknown, binding]);
  expect(unchangingLimits(limits, 'travel and lock')).toBe(
    'At every clocking, over travel and lock: 1 joint binds: Upper joint. Whether Damper tops out is unknown: give its openLength.',
  );
  expect(unchangingLimits(limitFindings([binding]), 'ride height')).toBe(
    'At every clocking, at ride height: 1 joint binds: Upper joint.',
  );
  expect(unchangingLimits(limitFindings([inventedLimit()]), 'ride height')).toBeUndefined();
});
