import { describe, expect, it } from 'vitest';
import {
  freeId,
  textFromValue,
  valueFromText,
  withCopy,
  withId,
  withoutPart,
  withPart,
  withValue,
} from '../../src/design/edit.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { valueAt } from '../../src/design/path.ts';
import { minimalCorner } from './fixtures.ts';

const problems = (source: unknown) => {
  const parsed = parseDesign(JSON.stringify(source));
  return parsed.kind === 'bad' ? parsed.problems : [];
};

describe('edits of a file', () => {
  it('change one value and leave the old file unchanged', () => {
    const source = minimalCorner();
    const before = JSON.stringify(source);
    const path = ['parts', 0, 'width'];
    const edited = withValue(source, path, '9 in');
    expect(valueAt(edited, path)).toBe('9 in');
    expect(JSON.stringify(source)).toBe(before);
    expect(valueAt(edited, ['suspension'])).toBe(source.suspension);
    expect(withValue(edited, path, '8 in')).toEqual(source);
  });

  it('remove a value, create missing groups, reject a path through a value', () => {
    const source = minimalCorner();
    const without = withValue(source, ['parts', 0, 'offset'], undefined);
    expect(valueAt(without, ['parts', 0])).not.toHaveProperty('offset');
    expect(withValue({}, ['a', 'b'], 1)).toEqual({ a: { b: 1 } });
    expect(withValue({ list: [1, 2, 3] }, ['list', 1], undefined)).toEqual({ list: [1, 3] });
    expect(() => withValue({ a: 'text' }, ['a', 'b'], 1)).toThrow(
      'cannot set "b" in "text": it has no fields',
    );
  });

  it('keep lengths as typed, read plain numbers, and keep any other text', () => {
    expect(valueFromText({ kind: 'length' }, ' 5 1/2 in ±1/32 ')).toBe('5 1/2 in ±1/32');
    expect(valueFromText({ kind: 'angle' }, '−12.5°')).toBe(-12.5);
    expect(valueFromText({ kind: 'count' }, '6')).toBe(6);
    expect(valueFromText({ kind: 'count' }, 'six')).toBe('six');
    expect(valueFromText({ kind: 'yesNo' }, 'no')).toBe(false);
    expect(valueFromText({ kind: 'number' }, '  ')).toBeUndefined();
    for (const value of ['5 1/2 in', 12.5, true, false])
      expect(['5 1/2 in', '12.5', 'yes', 'no']).toContain(textFromValue(value));
    expect(textFromValue(undefined)).toBe('');
  });

  it('add, copy, remove and rename parts, and update pair rules', () => {
    const rule = (one: string, other: string) => ({ between: [one, other] as [string, string], target: 3 });
    const source = { ...minimalCorner(), pairs: [rule('rotor', 'upright'), rule('caliper', 'wheel')] };
    expect(problems(source)).toEqual([]);
    const rotor = source.parts.findIndex(({ id }) => id === 'rotor');
    const copied = withCopy(source, rotor);
    expect(valueAt(copied, ['parts', rotor + 1, 'id'])).toBe('rotor2');
    expect(freeId(copied, 'rotor2')).toBe('rotor3');
    const renamed = withId(source, rotor, 'disc');
    expect(problems(renamed)).toEqual([]);
    expect(valueAt(renamed, ['pairs', 0, 'between'])).toEqual(['disc', 'upright']);
    const bar = { id: 'bar', kind: 'tube', from: [0, 1, 2], to: [0, 90, 2], diameter: 20 } as const;
    expect(problems(withPart(source, bar))).toEqual([]);
    const without = withoutPart(withPart(source, bar), source.parts.length);
    expect(without).toEqual(source);
    const caliper = source.parts.findIndex(({ id }) => id === 'caliper');
    expect(valueAt(withoutPart(source, caliper), ['pairs'])).toEqual([rule('rotor', 'upright')]);
  });
});
