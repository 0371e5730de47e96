import { describe, expect, it } from 'vitest';
import { valueAt } from '../../../src/design/path.ts';
import { changeTo, withRemedy } from '../../../src/studies/remedy/changedFile.ts';
import { choicesOf, stepAtLeast } from '../../../src/studies/remedy/choices.ts';
import { studiedInputs } from '../../../src/studies/sensitivity/studiedInputs.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';
import { between, cases, mulberry32 } from '../../oracles/random.ts';
import { box, boxCorner } from '../vary/boxCorner.ts';

const chosen = (source: unknown, name: string, direction: 1 | -1) => {
  const design = readDesign(source);
  const input = studiedInputs(design).find(({ field }) => field.name === name);
  if (input === undefined) throw new Error(`${name} is not studied`);
  return { design, choices: choicesOf(design, input, direction) };
};

const boxFile = (centre: unknown[], unit?: 'mm' | 'in', more: object = {}) =>
  boxCorner([{ ...box('one', 'chassis', centre as number[], [40, 60, 80]), ...more }], unit && { unit });

describe('the values that a dimension may be changed to', () => {
  it('are whole mm, or sixteenths of an inch, on one side and up to 25 mm or 1 in away', () => {
    const mm = chosen(boxFile([0, 0, 100.4]), 'one.centre[2]', 1).choices;
    expect(mm.amounts).toEqual(Array.from({ length: 25 }, (_, k) => 101 + k));
    const inches = chosen(boxFile([0, 0, '4 1/32'], 'in'), 'one.centre[2]', -1).choices;
    expect(inches.amounts[0]).toBeCloseTo(4 * 25.4, 9);
    expect(inches.amounts.at(-1)).toBeCloseTo(3.0625 * 25.4, 9);
    expect(inches.amounts).toHaveLength(16);
  });

  it('are in the unit in which the value is typed', () => {
    const { choices } = chosen(boxFile([0, 0, '100 mm'], 'in'), 'one.centre[2]', 1);
    expect([choices.unit, choices.amounts[0]]).toEqual(['mm', 101]);
    expect(chosen(boxFile([0, 0, '4"'], 'mm'), 'one.centre[2]', 1).choices.unit).toBe('in');
  });

  it('are heights from the origin of the file', () => {
    const source = { ...boxFile([0, 0, 100]), originHeight: 0.5 };
    expect(chosen(source, 'one.centre[2]', 1).choices.amounts[0]).toBe(101);
  });

  it('are whole degrees up to 15', () => {
    const { amounts } = chosen(boxFile([0, 0, 0], 'mm', { yawDeg: 2.5 }), 'one.yawDeg', -1).choices;
    expect(amounts).toEqual([2, 1, 0, ...Array.from({ length: 12 }, (_, k) => -1 - k)]);
  });

  it('keep half of a size', () => {
    expect(chosen(boxFile([0, 0, 0]), 'one.size[0]', -1).choices.amounts.at(-1)).toBe(20);
    expect(chosen(boxFile([0, 0, 0]), 'one.size[0]', 1).choices.amounts.at(-1)).toBe(65);
  });

  it('are those in which wheels are sold', () => {
    const corner = minimalCorner();
    const wheel = corner.parts.find(({ kind }) => kind === 'wheel') as Record<string, unknown>;
    delete wheel.offset;
    wheel.backspacing = '5 1/4 in';
    const { choices } = chosen(corner, 'wheel.backspacing', -1);
    expect(choices.isBought).toBe(true);
    expect(choices.amounts[0]).toBeCloseTo(5.125 * 25.4, 9);
    expect(choices.amounts[1]).toBeCloseTo(5 * 25.4, 9);
  });

  it('are rounded outward, never inward, and to the next step', () => {
    const seed = 20;
    const random = mulberry32(seed);
    for (let n = 0; n < cases(300, 5000); n++) {
      const unit = random() < 0.5 ? 'mm' : 'in';
      const from = between(random, -200, 200);
      const typed = `${(unit === 'mm' ? from : from / 25.4).toFixed(4)} ${unit}`;
      const direction = random() < 0.5 ? 1 : -1;
      const { choices } = chosen(boxFile([0, 0, typed]), 'one.centre[2]', direction);
      const distance = between(random, 0, 24);
      const step = stepAtLeast(choices, distance);
      const label = `seed ${seed}, case ${n}, from ${typed}, ${distance} mm`;
      const moved = (k: number) => direction * (choices.amounts[k - 1] - choices.from);
      expect(moved(step), label).toBeGreaterThanOrEqual(distance);
      if (step > 1) expect(moved(step - 1), label).toBeLessThan(distance);
      else expect(moved(1), label).toBeLessThanOrEqual(choices.step * (1 + 1e-9));
    }
  });

  it('are counted past the end if the distance is out of range', () => {
    const { choices } = chosen(boxFile([0, 0, 100]), 'one.centre[2]', 1);
    expect(stepAtLeast(choices, 26)).toBe(26);
  });
});

describe('the changed file', () => {
  it.each([
    [['4 1/16', 'in'], 1, '4 1/8'],
    [['4.0625 in', 'in'], 1, '4 1/8 in'],
    [['-1/8', 'in'], 1, '-1/16'],
    [['1/8', 'in'], 3, '5/16'],
    [[0, 'in'], 5, '5/16 in'],
    [['100 mm', 'in'], 2, '102 mm'],
    [['100.5', 'mm'], 1, '101'],
    [[100, 'mm'], 1, 101],
    [[100, undefined], 1, 101],
  ] as const)('holds the value as the old one is typed: %j, step %d: %j', ([typed, unit], step, written) => {
    const { design, choices } = chosen(boxFile([0, 0, typed], unit), 'one.centre[2]', 1);
    const change = changeTo(design, choices, step);
    const source = withRemedy(design, [change]);
    expect(valueAt(source, ['parts', 0, 'centre', 2])).toBe(written);
    expect(readDesign(source).inputs.find(({ path }) => path === 'parts[0].centre[2]')?.value).toBeCloseTo(
      change.to,
      9,
    );
    expect(valueAt(design.source, ['parts', 0, 'centre', 2])).toBe(typed);
  });

  it('no longer lists the value as assumed, and keeps the hub in place', () => {
    const corner = structuredClone(minimalCorner()) as unknown as {
      suspension: Record<string, unknown>;
      parts: Record<string, unknown>[];
    };
    delete corner.suspension.hubFace;
    const [wheel] = corner.parts;
    const field = wheel.backspacing === undefined ? 'offset' : 'backspacing';
    wheel.assumed = [field];
    const { design, choices } = chosen(corner, `${wheel.id}.${field}`, 1);
    const source = withRemedy(design, [changeTo(design, choices, 1)]);
    expect(valueAt(source, ['parts', 0, 'assumed'])).toBeUndefined();
    expect(valueAt(source, ['suspension', 'hubFace'])).toBeDefined();
  });
});
