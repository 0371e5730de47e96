import { describe, expect, it } from 'vitest';
import { type MeasuringError, measuringErrorOf } from '../../../src/studies/measuringError/measuringError.ts';
import type { PairError } from '../../../src/studies/measuringError/pairError.ts';
import { sensitivityOf } from '../../../src/studies/sensitivity/sensitivity.ts';
import { readDesign } from '../../design/readDesign.ts';
import { COARSE, fewParts } from '../sensitivity/fewParts.ts';
import { ARM_MM, BUMP_MM, box, boxCorner, FEW_STEPS, parallelArms } from '../vary/boxCorner.ts';
import { CROSSING_SLOT } from './crossingSlot.ts';

const studied = async (
  parts: readonly object[],
  targetMm: number,
  changes: Record<string, unknown> = {},
): Promise<MeasuringError> => {
  const [one, other] = parts as { id: string }[];
  const pairs = [{ between: [one.id, other.id], target: targetMm }];
  const design = readDesign(boxCorner(parts, { pairs, ...changes }));
  return measuringErrorOf(await sensitivityOf(design, { settings: FEW_STEPS }));
};

function only({ pairs }: MeasuringError): PairError {
  expect(pairs).toHaveLength(1);
  return pairs[0];
}

const namesOf = ({ terms }: PairError) => terms.map(({ value }) => value.field.name);
const slopesOnly = ({ linear }: PairError) => linear.worstMm - linear.slopeErrorMm;

/** At full bump the upright has moved inboard by this, mm: its arms have turned by asin(bump / length). */
const INBOARD_MM = ARM_MM - Math.sqrt(ARM_MM ** 2 - BUMP_MM ** 2);

/** The clearance is 450 - 20 / 2 - (350 + 30 / 2 + 60) = 15 mm: linear in each value. */
const blocks = [
  { ...box('rising', 'upright', [], []), centre: [0, 640, '350 mm ±0.5'], size: [40, 40, '30 mm ±1'] },
  { ...box('fixed', 'chassis', [], []), centre: [0, 640, '450 mm ±0.25'], size: [90, 90, 20] },
];

describe('the measuring error of a block over one that rises', () => {
  it('is by hand: 0.5 + 1 / 2 + 0.25 = 1.25 mm, root sum square 0.75 mm', async () => {
    const pair = only(await studied(blocks, 5));
    expect(namesOf(pair).sort()).toEqual(['fixed.centre[2]', 'rising.centre[2]', 'rising.size[2]']);
    expect(pair.worst.clearanceMm).toBeCloseTo(15, 6);
    expect(slopesOnly(pair)).toBeCloseTo(1.25, 3);
    expect(pair.rssMm).toBeCloseTo(0.75, 3);
    expect(pair.verifiedLossMm).toBeCloseTo(1.25, 3);
    expect(pair.worstCaseMm).toBe(pair.linear.worstMm);
    expect(pair.linear.worstMm).toBeGreaterThanOrEqual(1.25);
    expect(pair.linear.slopeErrorMm).toBeLessThan(0.02);
    expect([pair.isWithin, pair.finding.state]).toEqual([false, 'clear']);
  });

  it('is within the measuring error if the margin is positive and less than the worst case', async () => {
    expect(only(await studied(blocks, 14))).toMatchObject({ isWithin: true, finding: { state: 'clear' } });
    expect(only(await studied(blocks, 16))).toMatchObject({ isWithin: false, finding: { state: 'tight' } });
  });

  it('lists assumed values apart, and counts given values without a ± as exact', async () => {
    const pair = only(await studied(blocks, 5));
    const assumed = pair.assumed.map(({ value }) => value.field.name);
    expect(assumed).toContain('fixed.rollDeg');
    expect(namesOf(pair)).not.toContain('fixed.rollDeg');
    expect(pair.exactCount).toBeGreaterThan(0);
  });

  it('has the ± of measuredTo for every given value, and its own where one is typed', async () => {
    const pair = only(await studied(blocks, 5, { measuredTo: { length: 0.1, angle: 0.1 } }));
    const byName = new Map(pair.terms.map((term) => [term.value.field.name, term]));
    expect(byName.get('fixed.size[2]')).toMatchObject({ plusMinus: { amount: 0.1, from: 'measuredTo' } });
    expect(byName.get('fixed.size[2]')?.lossMm).toBeCloseTo(0.05, 3);
    expect(byName.get('suspension.travel.bump')?.lossMm).toBeCloseTo(0.1, 3);
    expect(byName.get('rising.size[2]')).toMatchObject({ plusMinus: { amount: 1, from: 'typed' } });
    expect(pair.exactCount).toBe(0);
  });

  it('ranks the values to measure again: the fewest that take half of the doubt', async () => {
    const { again } = await studied(blocks, 5);
    expect(again.totalMm).toBeCloseTo(1.25, 1);
    // 0.5 mm, 0.5 mm and 0.25 mm of 1.25 mm.
    expect(again.values.map(({ value }) => value.field.name).sort()).toEqual([
      'rising.centre[2]',
      'rising.size[2]',
    ]);
    for (const { doubtMm, pairs } of again.values) {
      expect(doubtMm).toBeCloseTo(0.5, 1);
      expect(pairs).toBe(1);
    }
  });

  it('has no terms and nothing to verify without a ±', async () => {
    const plain = [
      box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
      box('fixed', 'chassis', [0, 640, 450], [90, 90, 20]),
    ];
    expect(only(await studied(plain, 5))).toMatchObject({
      terms: [],
      verified: undefined,
      worstCaseMm: 0,
      rssMm: 0,
      isWithin: false,
    });
  });

  it('rejects with the reason of a cancellation', async () => {
    const study = await sensitivityOf(readDesign(boxCorner(blocks)), { settings: FEW_STEPS });
    const signal = AbortSignal.abort(new Error('enough'));
    await expect(measuringErrorOf(study, { signal })).rejects.toThrow('enough');
  });
});

it('counts a value once that moves both parts of a pair', async () => {
  const parts = [
    box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
    box('onArm', 'lowerArm', [0, 560, 290], [40, 20, 20]),
  ];
  const { hardpoints } = parallelArms;
  const suspension = {
    ...parallelArms,
    hardpoints: { ...hardpoints, lowerJoint: [0, '660 mm ±2', 230] },
  };
  const pair = only(await studied(parts, 5, { suspension }));
  expect(namesOf(pair)).toEqual(['suspension.hardpoints.lowerJoint[1]']);
  expect(pair.verifiedLossMm).toBeGreaterThan(0.05);
  // The changed corner moves both parts once; a value counted for each part would have another sum.
  expect(Math.abs(slopesOnly(pair) - (pair.verifiedLossMm ?? Number.NaN))).toBeLessThan(
    0.1 * slopesOnly(pair) + pair.linear.slopeErrorMm,
  );
});

describe('where slopes do not hold over the ±', () => {
  it('a distance that curves has less loss: that of the changed corner counts', async () => {
    const [across, below, radius] = [10, 30, 5];
    const parts = [
      {
        ...box('rising', 'upright', [], []),
        centre: [0, `${640 + across + 10 + INBOARD_MM} mm ±${across}`, 350],
        size: [40, 20, 20],
      },
      {
        id: 'fixed',
        kind: 'tube',
        carrier: 'chassis',
        from: [-100, 640, 350 + 10 + BUMP_MM + below],
        to: [100, 640, 350 + 10 + BUMP_MM + below],
        diameter: 2 * radius,
      },
    ];
    const pair = only(await studied(parts, 5));
    const distance = Math.hypot(across, below);
    expect(pair.worst.clearanceMm).toBeCloseTo(distance - radius, 1);
    // The tube's mesh has flat sides: the error of the slope covers that.
    const exactMm = (across / distance) * across;
    expect(Math.abs(slopesOnly(pair) - exactMm)).toBeLessThanOrEqual(pair.linear.slopeErrorMm);
    expect(pair.linear.worstMm).toBeGreaterThanOrEqual(exactMm);
    expect(pair.verifiedLossMm).toBeCloseTo(distance - below, 1);
    expect(pair.worstCaseMm).toBe(pair.verifiedLossMm);
  });

  it('another place becomes the nearest and has more loss: that of the changed corner counts', async () => {
    // The near place has a lever of 0.32, and the end of the tube, 2 mm further off, one of 1.
    const parts = [
      {
        id: 'rising',
        kind: 'tube',
        carrier: 'upright',
        from: [0, 560, 350],
        to: [0, 700, '350 mm ±8'],
        diameter: 20,
      },
      {
        id: 'fixed',
        kind: 'plate',
        carrier: 'chassis',
        thickness: 10,
        outline: [
          [0, 560, 450],
          [0, 600, 450],
          [0, 600, 452],
          [0, 720, 452],
          [0, 720, 470],
          [0, 560, 470],
        ],
      },
    ];
    const pair = only(await studied(parts, 26));
    const lever = (600 - (560 - INBOARD_MM)) / 140;
    expect(pair.worst.clearanceMm).toBeCloseTo(30, 1);
    expect(slopesOnly(pair)).toBeCloseTo(8 * lever, 1);
    expect(Math.abs((pair.verifiedLossMm ?? Number.NaN) - 6)).toBeLessThan(0.2);
    expect(pair.worstCaseMm).toBe(pair.verifiedLossMm);
    // The margin of 4 mm is more than the slopes take, and less than the changed corner loses.
    expect(pair.linear.worstMm).toBeLessThan(pair.leastMarginMm);
    expect(pair.isWithin).toBe(true);
  });

  it('the reasons are given if the changed corner cannot be built, and the slopes count', async () => {
    const pair = only(await studied(CROSSING_SLOT, 5));
    expect(pair.verified).toMatchObject({ kind: 'notBuilt' });
    expect(pair.verified?.kind === 'notBuilt' && pair.verified.problems.length).toBeGreaterThan(0);
    expect(pair.worstCaseMm).toBe(pair.linear.worstMm);
    expect(pair.isWithin).toBe(true);
  });
});

/** Without arms and caliper the study is short. */
const KINDS = ['wheel', 'hub', 'rotor', 'upright', 'tieRod'];
/** The proof leaves this much of a clearance open, mm. */
const PROOF_MM = 0.1;

it('a demo corner: no changed corner loses more than its linear worst case, and most lose what the slopes say', async () => {
  const design = fewParts('larkrise', { measuredTo: { length: 0.5, angle: '0.25°' } }, KINDS);
  const { pairs } = await measuringErrorOf(await sensitivityOf(design, { settings: COARSE }));
  let agreeing = 0;
  for (const pair of pairs) {
    if (pair.verified?.kind !== 'measured' || pair.verifiedLossMm === undefined) continue;
    const errorMm = pair.worst.errorMm + pair.verified.worst.errorMm + PROOF_MM;
    expect(pair.verifiedLossMm, `pair ${pair.finding.pair}`).toBeLessThanOrEqual(
      pair.linear.worstMm + errorMm,
    );
    if (Math.abs(pair.verifiedLossMm - slopesOnly(pair)) <= 0.1 * slopesOnly(pair) + errorMm) agreeing += 1;
  }
  expect(pairs.length).toBeGreaterThan(10);
  expect(agreeing).toBeGreaterThan(0.8 * pairs.length);
});
