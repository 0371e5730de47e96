import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../../src/design/parse.ts';
import { mockupOf } from '../../../src/studies/mockup/mockup.ts';
import { DesignProblems } from '../../../src/units/problem.ts';
import { readDesign } from '../../design/readDesign.ts';
import { box, boxCorner, FEW_STEPS } from '../vary/boxCorner.ts';

/** On these arms the block rises without turning: the gap is 75 mm less the travel. */
const parts = (rise: unknown[], height: unknown) => [
  { ...box('rising', 'upright', [], []), centre: rise, size: [40, 40, height] },
  box('fixed', 'chassis', [0, 640, 450], [90, 90, 20]),
  box('aside', 'chassis', [300, 640, 450], [30, 30, 20]),
];
const TYPED = parts([0, 640, '350 mm ±1 mm'], '30 mm ±0.4 mm');

const study = (mockup: object[], blocks = TYPED, changes = {}) =>
  mockupOf(readDesign(boxCorner(blocks, { mockup, ...changes })), { settings: FEW_STEPS });

const BETWEEN = { between: ['fixed', 'rising'] };

describe('gaps of the mock-up, each by hand', () => {
  it('predicts the gap at the typed pose, and sums the ± through the slopes', async () => {
    const { gaps, suspects } = await study([
      { ...BETWEEN, travel: 40, gap: '34 mm ±0.5 mm', on: '2026-03-01', by: 'E. Moss' },
      { ...BETWEEN, travel: '-20 mm ±0.25 mm', gap: 96 },
    ]);
    expect(gaps.map(({ predicted }) => predicted?.mm)).toEqual([
      expect.closeTo(75 - 40, 6),
      expect.closeTo(75 + 20, 6),
    ]);
    expect(gaps.map(({ differenceMm }) => differenceMm)).toEqual([
      expect.closeTo(-1, 6),
      expect.closeTo(1, 6),
    ]);
    // Of the centre whole, of the height half; in the second, of the travel too.
    expect(gaps[0].measuringErrorMm).toBeCloseTo(1 + 0.2, 4);
    expect(gaps[1].measuringErrorMm).toBeCloseTo(1 + 0.2 + 0.25, 4);
    expect(gaps.map(({ isExplained }) => isExplained)).toEqual([true, true]);
    expect(suspects).toEqual([]);
  });

  it('names the values that explain a difference best, in proportion to slope times ± squared', async () => {
    const { gaps, suspects } = await study([{ ...BETWEEN, travel: 40, gap: '33 mm ±0.5 mm' }]);
    expect(gaps[0].isExplained).toBe(false);
    const noise = 0.5 ** 2 + (gaps[0].predicted?.errorMm ?? Number.NaN) ** 2;
    const spread = 1 + (0.4 / 2) ** 2 + noise;
    expect(suspects.map(({ value, change }) => [value.field.name, change])).toEqual([
      ['rising.centre[2]', expect.closeTo((1 * 2) / spread, 4)],
      ['rising.size[2]', expect.closeTo((0.4 ** 2 * 0.5 * 2) / spread, 4)],
    ]);
    expect(suspects[0].effectMm.get(0)).toBeCloseTo(-2 / spread, 4);
  });

  it('counts parts that touch where they overlap as predicted, and else as a difference', async () => {
    const { gaps } = await study(
      [
        { ...BETWEEN, travel: 60, gap: 0 },
        { ...BETWEEN, travel: 40, gap: 0 },
      ],
      parts([0, 640, 370], 30),
    );
    expect(gaps.map(({ predicted }) => predicted?.mm)).toEqual([
      expect.closeTo(-5, 1),
      expect.closeTo(15, 6),
    ]);
    expect(gaps.map(({ differenceMm }) => differenceMm)).toEqual([0, expect.closeTo(-15, 6)]);
    expect(gaps.map(({ isExplained }) => isExplained)).toEqual([true, false]);
  });

  it('has no suspects where no value has a ±', async () => {
    const { gaps, suspects } = await study([{ ...BETWEEN, travel: 0, gap: 70 }], parts([0, 640, 350], 30));
    expect([gaps[0].isExplained, gaps[0].measuringErrorMm, suspects]).toEqual([false, 0, []]);
    expect(gaps[0].effects[0].value.field.name).toMatch(/centre\[2\]$/);
  });

  it('changes neither the figures of the corner nor its hash', () => {
    const hash = (changes: object) => readDesign(boxCorner(TYPED, { ...changes })).hash;
    expect(hash({ mockup: [{ ...BETWEEN, travel: 0, gap: 70 }] })).toBe(hash({}));
  });
});

describe('a mock-up that cannot be read', () => {
  const problems = (entry: object) => {
    const read = parseDesign(JSON.stringify(boxCorner(TYPED, { mockup: [entry] })));
    return read.kind === 'bad' ? read.problems.map(({ path, message }) => `${path}: ${message}`) : [];
  };

  it.each([
    [{ travel: 61 }, 'mockup[0].travel: is out of the travel: it must be from -50 mm to 60 mm'],
    [{ travel: -50.1 }, 'mockup[0].travel: is out of the travel: it must be from -50 mm to 60 mm'],
    [{ rack: 3 }, 'mockup[0].rack: is beyond the lock, which is 0 mm to that side'],
    [
      { steerDeg: 3 },
      'mockup[0].steerDeg: does not apply: this suspension is steered by its rack. Write "rack" instead',
    ],
    [
      { between: ['risng', 'fixed'] },
      'mockup[0].between[0]: is not the id of a part. Did you mean "rising"?',
    ],
    [{ between: ['fixed', 'fixed'] }, 'mockup[0].between: names the same part twice; name two parts'],
    [{ on: '1 March' }, 'mockup[0].on: must be a day, written as 2026-03-01'],
    [{ gap: -1 }, 'mockup[0].gap: must be 0 or more and less than 100 m'],
  ])('says where and how to mend it: %j', (change, problem) => {
    expect(problems({ ...BETWEEN, travel: 0, gap: 75, ...change })).toEqual([problem]);
  });

  it('refuses a pair that is not measured', async () => {
    const refused = study([{ between: ['fixed', 'aside'], travel: 0, gap: 1 }]);
    await expect(refused).rejects.toBeInstanceOf(DesignProblems);
    await expect(refused).rejects.toMatchObject({ problems: [{ path: 'mockup[0].between' }] });
  });
});
