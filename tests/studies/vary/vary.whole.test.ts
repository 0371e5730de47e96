import { describe, expect, it } from 'vitest';
import { withValue } from '../../../src/design/edit.ts';
import { wheelAxis } from '../../../src/studies/vary/listAxes.ts';
import { rangeAxis } from '../../../src/studies/vary/rangeAxis.ts';
import { variedField } from '../../../src/studies/vary/variedField.ts';
import { varyCorner } from '../../../src/studies/vary/vary.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';
import { ARM_MM, BUMP_MM, box, boxCorner, FEW_STEPS, PIVOT, parallelArms } from './boxCorner.ts';

const settings = FEW_STEPS;

/** Varies one field of a source over a range in mm. */
async function vary(source: Record<string, unknown>, name: string, from: number, to: number, step: number) {
  const axis = rangeAxis(variedField(source, name), { from, to, step }, 'mm');
  return varyCorner(readDesign(source), [axis], { settings });
}

const verdicts = (study: Awaited<ReturnType<typeof vary>>) => study.cells.map(({ tried }) => tried.verdict);

describe('the border between values that fit and values that do not', () => {
  it('agrees with the closed form for a bar that rises with the arm under a ceiling', async () => {
    const source = boxCorner([
      box('bar', 'lowerArm', [0, PIVOT.y + 200, PIVOT.z + 30], [20, 40, 40]),
      box('ceiling', 'chassis', [0, PIVOT.y + 200, 345], [60, 400, 10]),
      // Touches the bar at every ceiling, so it does not affect the result.
      box('strut', 'chassis', [0, PIVOT.y + 200, PIVOT.z + 30], [20, 20, 20]),
    ]);
    const study = await vary(source, 'ceiling.centre[2]', 302, 350, 10);
    // The bar's upper outboard edge at full bump, plus a target of 5 mm and half of the ceiling's thickness.
    const sine = BUMP_MM / ARM_MM;
    const border = PIVOT.z + 220 * sine + 50 * Math.sqrt(1 - sine ** 2) + 5 + 5;
    expect(verdicts(study)).toEqual(['fails', 'fails', 'fails', 'fits', 'fits', 'fits']);
    const [only, ...more] = study.intervals ?? [];
    expect(more).toEqual([]);
    // Between the steps, a proof may leave its own tolerance, 0.1 mm, unproved.
    expect(only.first.amount).toBeGreaterThanOrEqual(border - 1e-6);
    expect(only.below?.values[0].amount).toBeLessThan(border + 0.1);
    expect(only.first.amount! - only.below!.values[0].amount!).toBeLessThanOrEqual(0.1 + 1e-9);
    expect([only.last.amount, only.above]).toEqual([350, undefined]);
    const [worst] = study.cells[2].tried.pairs;
    expect(worst).toMatchObject({ a: 'bar', b: 'ceiling', state: 'tight', moves: true });
    expect(worst.worst?.travelMm).toBe(BUMP_MM);
    expect(worst.leastMarginMm).toBeLessThanOrEqual(322 - border);
    expect(worst.leastMarginMm).toBeGreaterThan(322 - border - 0.1 - 0.001);
    expect([study.concernedCount, study.pairCount]).toEqual([1, 2]);
  });

  it('is enclosed by two values for two boxes that move together', async () => {
    const source = boxCorner([
      box('sensor', 'upright', [0, 660, 330], [20, 20, 20]),
      box('stay', 'upright', [60, 660, 330], [20, 20, 20]),
    ]);
    // The target between parts at the wheel is 2 mm.
    const study = await vary(
      withValue(source, ['parts', 1, 'size', 0], 20.66) as Record<string, unknown>,
      'stay.centre[0]',
      0,
      60,
      7,
    );
    const [interval] = study.intervals ?? [];
    const border = 10 + 10.33 + 2;
    expect(interval.first.amount).toBeGreaterThanOrEqual(border);
    expect(interval.below?.values[0].amount).toBeLessThan(border);
    expect(interval.first.amount! - interval.below!.values[0].amount!).toBeLessThanOrEqual(0.1 + 1e-9);
  });

  it('is found for every interval of values that fit', async () => {
    const source = boxCorner([
      box('sensor', 'upright', [0, 660, 330], [20, 20, 20]),
      box('stay', 'upright', [-60, 660, 330], [20, 20, 20]),
      box('clip', 'upright', [90, 660, 330], [20, 20, 20]),
    ]);
    const study = await vary(source, 'stay.centre[0]', -50, 150, 5);
    const borders = [-22, 22, 68, 112];
    expect(study.intervals).toHaveLength(3);
    const found = (study.intervals ?? []).flatMap(({ first, last, below, above }) => [
      ...(below === undefined ? [] : [[below.values[0].amount!, first.amount!]]),
      ...(above === undefined ? [] : [[last.amount!, above.values[0].amount!]]),
    ]);
    expect(found).toHaveLength(4);
    found.forEach(([low, high], k) => {
      expect(low).toBeLessThanOrEqual(borders[k]);
      expect(high).toBeGreaterThanOrEqual(borders[k]);
      expect(high - low).toBeLessThanOrEqual(0.1 + 1e-9);
    });
    expect(study.intervals?.[1].above?.tried.pairs[0]).toMatchObject({ a: 'stay', b: 'clip' });
  });

  it("of a wheel's backspacing is at the contact of its inner edge with a box beside the barrel", async () => {
    // The inner edge of the flange is `backspacing` inboard of the face, at Y 730; the box ends at Y 590; the target
    // is 25 mm.
    const source = boxCorner([
      { id: 'wheel', kind: 'wheel', diameterCode: 15, width: '7 in', offset: 30 },
      box('stay', 'upright', [0, 580, 330 + 190], [40, 20, 60]),
    ]);
    const study = await vary(source, 'wheel.backspacing', 110, 150, 10);
    const border = 730 - 590 - 25;
    const [interval, ...more] = study.intervals ?? [];
    expect(more).toEqual([]);
    // The wheel's chord error is subtracted from the measurement.
    expect(interval.last.amount).toBeLessThanOrEqual(border);
    expect(interval.last.amount).toBeGreaterThan(border - 0.05 - 0.1 - 0.01);
    expect(interval.above?.values[0].amount).toBeLessThanOrEqual(interval.last.amount! + 0.1 + 1e-9);
    expect(interval.above?.tried.pairs[0]).toMatchObject({ a: 'wheel', b: 'stay', state: 'tight' });
    // A spacer moves the whole wheel outward.
    const spaced = boxCorner([
      { id: 'wheel', kind: 'wheel', diameterCode: 15, width: '7 in', backspacing: 140 },
      box('stay', 'upright', [0, 580, 330 + 190], [40, 20, 60]),
      { id: 'ring', kind: 'spacer', place: 'wheel', thickness: 6, outerDiameter: 150, innerDiameter: 80 },
    ]);
    const byRing = await vary(spaced, 'ring.thickness', 20, 30, 4);
    expect(byRing.intervals?.[0].first.amount).toBeGreaterThanOrEqual(25);
    expect(byRing.intervals?.[0].below?.values[0].amount).toBeLessThan(25 + 0.05 + 0.01);
    expect(byRing.intervals?.[0].last.amount).toBe(30);
  });
});

describe('a value', () => {
  const withWheel = () =>
    boxCorner([
      { id: 'wheel', kind: 'wheel', diameterCode: 15, width: '7 in', offset: 30, assumed: ['offset'] },
      { id: 'ring', kind: 'spacer', place: 'wheel', thickness: 6, outerDiameter: 150, innerDiameter: 80 },
      box('stay', 'upright', [0, 560, 330 + 190], [40, 20, 60]),
    ]);

  it('fails with the reason if the corner cannot be built with it', async () => {
    const study = await vary(withWheel(), 'ring.innerDiameter', 130, 160, 10);
    expect(verdicts(study)).toEqual(['fits', 'fits', 'fails', 'fails']);
    const [problem] = study.cells[3].tried.problems;
    expect(problem.path).toBe('parts[1].innerDiameter');
    expect(problem.message).toMatch(/must be less than outerDiameter/);
    const [{ last, above }] = study.intervals ?? [];
    expect(last.amount).toBeLessThan(150);
    expect(above?.values[0].amount).toBeCloseTo(last.amount! + 0.1, 9);
  });

  it('of a wheel moves the wheel but not the hub, if the wheel sets the hub position in the file', async () => {
    const parts = minimalCorner().parts.filter(({ kind }) => ['wheel', 'hub', 'rotor'].includes(kind));
    const source = boxCorner([...parts, box('stay', 'upright', [0, 560, 520], [40, 20, 60])], {
      suspension: { ...parallelArms, hubFace: undefined },
      unit: 'mm',
    });
    const study = await vary(source, 'wheel.offset', 25, 35, 10);
    expect(study.hubHeld).toBe(true);
    const changed = study.cells[0].tried.pairs.map(({ a, b }) => [a, b].includes('wheel'));
    expect(changed).toHaveLength(3);
    expect(changed).not.toContain(false);
    // 10 mm more offset moves the wheel 10 mm nearer to the parts inboard of it.
    const [near, far] = study.cells.map(({ tried }) => tried.pairs.find(({ b }) => b === 'stay'));
    expect(near!.leastMarginMm - far!.leastMarginMm).toBeCloseTo(10, 1);
  });

  it('of a wheel moves hub and rotor but not the wheel, if the file says that the hub follows', async () => {
    const parts = minimalCorner().parts.filter(({ kind }) => ['wheel', 'hub', 'rotor'].includes(kind));
    const source = boxCorner([...parts, box('stay', 'upright', [0, 560, 520], [40, 20, 60])], {
      suspension: { ...parallelArms, hubFace: undefined, hubFollowsWheel: true },
      unit: 'mm',
    });
    const study = await vary(source, 'wheel.offset', 25, 35, 10);
    expect(study.hubHeld).toBe(false);
    const [near, far] = study.cells.map(({ tried }) =>
      tried.pairs.find(({ a, b }) => a === 'wheel' && b === 'stay'),
    );
    expect(near?.leastMarginMm).toBe(far?.leastMarginMm);
  });

  it('of a list is checked even if it equals the corner', async () => {
    const source = boxCorner([
      { id: 'wheel', kind: 'wheel', diameterCode: 15, width: '7 in', backspacing: 140 },
      box('stay', 'upright', [0, 560, 330 + 190], [40, 20, 60]),
      box('clip', 'upright', [0, 560, 330 + 190], [40, 20, 60]),
    ]);
    const study = await varyCorner(readDesign(source), [wheelAxis(source, '15 x 7 x 140 mm')], { settings });
    // The wheel's two pairs: it is 20 mm from each, and the target is 25 mm.
    expect([verdicts(study), study.concernedCount, study.pairCount]).toEqual([['fails'], 2, 3]);
    expect(study.cells[0].tried.pairs.map(({ a, b, state }) => [a, b, state])).toEqual([
      ['wheel', 'stay', 'tight'],
      ['wheel', 'clip', 'tight'],
    ]);
  });

  it('is reported even if no checked pair changes with it', async () => {
    const study = await vary(withWheel(), 'wheel.boltHole', 12, 16, 2);
    expect(verdicts(study)).toEqual(['fits', 'fits', 'fits']);
    expect(study.concernedCount).toBe(0);
  });

  it('of a code is not refined between its steps', async () => {
    const study = await vary(withWheel(), 'wheel.diameterCode', 14, 17, 1);
    expect(study.cells.map(({ values }) => values[0].label)).toEqual(['14', '15', '16', '17']);
    expect(study.cells).toHaveLength(4);
  });

  it('is unknown if the suspension locks out and a moving pair is affected', async () => {
    const source = boxCorner([
      box('bar', 'lowerArm', [0, 500, 260], [20, 40, 40]),
      box('ceiling', 'chassis', [0, 500, 900], [60, 400, 10]),
    ]);
    const far = withValue(source, ['suspension', 'travel', 'bump'], 400) as Record<string, unknown>;
    const study = await vary(far, 'ceiling.centre[2]', 900, 910, 5);
    expect(verdicts(study)).toEqual(['unknown', 'unknown', 'unknown']);
    expect(study.cells.every(({ tried }) => tried.locksOut)).toBe(true);
    expect(study.intervals).toEqual([]);
  });
});

describe('a study', () => {
  const source = boxCorner([
    box('sensor', 'upright', [0, 660, 330], [20, 20, 20]),
    box('stay', 'upright', [60, 660, 330], [20, 20, 20]),
  ]);
  const axis = rangeAxis(variedField(source, 'stay.centre[0]'), { from: 20, to: 60, step: 10 }, 'mm');

  it('reports progress, including borders, and rejects when cancelled', async () => {
    const reported: [number, number][] = [];
    await varyCorner(readDesign(source), [axis], {
      settings,
      onProgress: (done, total) => reported.push([done, total]),
    });
    expect(reported.slice(0, 5)).toEqual([1, 2, 3, 4, 5].map((done) => [done, 5]));
    // 10 mm in tenths take at most seven halvings.
    expect(reported.length).toBeGreaterThan(9);
    expect(reported.length).toBeLessThanOrEqual(12);
    const cancel = new AbortController();
    const why = new Error('enough');
    const cancelled = varyCorner(readDesign(source), [axis], {
      settings,
      signal: cancel.signal,
      onProgress: (done) => done === 2 && cancel.abort(why),
    });
    await expect(cancelled).rejects.toBe(why);
  });

  it('of two dimensions checks every combination and names the failing pair', async () => {
    const sizes = rangeAxis(variedField(source, 'sensor.size[0]'), { from: 10, to: 50, step: 20 }, 'mm');
    const study = await varyCorner(readDesign(source), [axis, sizes], { settings });
    expect(study.intervals).toBeUndefined();
    expect(study.cells).toHaveLength(15);
    for (const { values, tried } of study.cells) {
      const [x, size] = values.map(({ amount }) => amount as number);
      expect([x, size, tried.verdict]).toEqual([x, size, x - 10 - size / 2 >= 2 ? 'fits' : 'fails']);
      expect(tried.pairs[0]).toMatchObject({ a: 'sensor', b: 'stay' });
      // The depth of an overlap is not the distance by which to move a part.
      expect(tried.pairs[0].leastMarginMm).toBeLessThan(x > 10 + size / 2 ? x - 12 - size / 2 : -2);
      if (x > 10 + size / 2) expect(tried.pairs[0].leastMarginMm).toBeCloseTo(x - 12 - size / 2, 5);
    }
  });

  it('rejects the same dimension twice, and no dimension', async () => {
    await expect(varyCorner(readDesign(source), [axis, axis], { settings })).rejects.toThrow(/varied twice/);
    await expect(varyCorner(readDesign(source), [], { settings })).rejects.toThrow(/not 0/);
  });
});
