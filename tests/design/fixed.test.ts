import { describe, expect, it } from 'vitest';
import { withPart } from '../../src/design/edit.ts';
import { fieldsAt } from '../../src/design/fields.ts';
import { isFixed } from '../../src/design/fixed.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { type Path, pathFrom, valueAt } from '../../src/design/path.ts';
import { minimalCorner } from './fixtures.ts';
import { readDesign } from './readDesign.ts';

const corner = (fixed: unknown) =>
  withPart(minimalCorner(), { id: 'box', kind: 'box', centre: [0, 300, 300], size: [100, 50, 50], fixed });
const box = minimalCorner().parts.length;
const at = (field: string): Path => ['parts', box, ...(pathFrom(field) ?? [])];

/** The path of a field of the part of a kind. */
const of = (kind: string, field: string): Path => [
  'parts',
  minimalCorner().parts.findIndex((part) => part.kind === kind),
  ...(pathFrom(field) ?? []),
];

describe('fixed values', () => {
  it.each([
    [undefined, [false, false]],
    [false, [false, false]],
    [true, [true, true]],
    [['size'], [true, false]],
    [
      ['size[1]', 'centre'],
      [false, true],
    ],
  ])('of a box, marked %j', (fixed, [size, centre]) => {
    const source = corner(fixed);
    expect([isFixed(source, at('size[0]')), isFixed(source, at('centre[2]'))]).toEqual([size, centre]);
    expect(readDesign(source).hash).toBe(readDesign(corner(undefined)).hash);
    expect(readDesign(source).inputs.some(({ path }) => path.includes('fixed'))).toBe(false);
  });

  it('are by default those of bought parts, except what is chosen when they are bought or fitted', () => {
    const source = minimalCorner();
    for (const [kind, field, fixed] of [
      ['wheel', 'width', true],
      ['wheel', 'backspacing', false],
      ['rotor', 'diameter', true],
      ['caliper', 'body.length', true],
      ['caliper', 'clockingDeg', false],
      ['hub', 'clockingDeg', false],
      ['upright', 'plateThickness', false],
    ] as const)
      expect([kind, field, isFixed(source, of(kind, field))]).toEqual([kind, field, fixed]);
    expect(isFixed(source, ['suspension', 'camberDeg'])).toBe(true);
    expect(isFixed(source, ['suspension', 'hardpoints', 'lowerJoint', 2])).toBe(false);
    expect(isFixed(source, ['originHeight'])).toBe(true);
  });

  it('of a bought part are free if it says so, and a list adds to the usual ones', () => {
    const rotor = of('rotor', 'diameter');
    const marked = (fixed: unknown) => {
      const source = structuredClone(minimalCorner()) as unknown as { parts: Record<string, unknown>[] };
      source.parts[rotor[1] as number].fixed = fixed;
      return source;
    };
    expect(isFixed(marked(false), rotor)).toBe(false);
    expect(isFixed(marked(['height']), rotor)).toBe(true);
  });

  it.each([
    ['yes', 'fixed is not allowed here; write true, false, or a list [ ] of paths such as "thickness"'],
    [[1], 'fixed is not allowed here; write true, false, or a list [ ] of paths such as "thickness"'],
    [['sizes'], 'fixed[0] is not the path of a value here. Did you mean "size"?'],
    [['size[3]'], 'fixed[0] is not the path of a value here.'],
    [['kind'], 'fixed[0] is not the path of a value here.'],
  ])('are rejected as %j', (fixed, problem) => {
    const read = parseDesign(JSON.stringify(corner(fixed)));
    const problems =
      read.kind === 'bad' ? read.problems.map(({ path, message }) => `${path} ${message}`) : [];
    expect(problems).toEqual([`parts[${box}].${problem}`]);
  });

  it('have no row in a sheet', () => {
    expect(fieldsAt(corner(true), ['parts', box]).map(({ key }) => key)).not.toContain('fixed');
    expect(valueAt(corner(true), at('fixed'))).toBe(true);
  });
});
