import { expect, it } from 'vitest';
import { limitFindings } from '../../../src/findings/limitFindings.ts';
import { unchangingLimits, unmetLines } from '../../../src/report/clocking/clockingWords.ts';
import { figuresIn } from '../../../src/report/figures.ts';
import { inventedLimit } from '../../oracles/inventedLimit.ts';

const NAMES = ['Caliper ↔ Upper arm'];
const nameOf = (pair: number): string => {
  if (NAMES[pair] === undefined) throw new Error(`no pair ${pair}`);
  return NAMES[pair];
};
const clockings = { caliperDeg: 72, hubDeg: -45 };

it.each([
  [{ marginMm: -1.2, errorMm: 0.1, limitedBy: 0 }, 'Caliper ↔ Upper arm, 1.30 mm missing'],
  [{ marginMm: Number.NaN, errorMm: Number.NaN, limitedBy: 0 }, 'Caliper ↔ Upper arm is unknown'],
  // If a tool has room, but too little to prove it, no pair limits the margin.
  [
    { marginMm: Number.POSITIVE_INFINITY, errorMm: Number.NaN, limitedBy: -1 },
    'every measured pair clears there, but by too little to prove it',
  ],
  [
    { marginMm: 1.3, errorMm: 0.1, limitedBy: 0 },
    'every measured pair clears there, but by too little to prove it',
  ],
])('names what is missing if no clocking clears: %o', (least, words) => {
  const unmet = { wants: [], contradiction: false, best: { clockings, least } };
  expect(unmetLines(nameOf, unmet, figuresIn('mm'))).toEqual([
    'No clocking clears.',
    `  nearest: caliper at +72.0°, hub at −45.0°: ${words}`,
  ]);
});

it('lists once the joints and dampers that bind or are unknown at every clocking', () => {
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
