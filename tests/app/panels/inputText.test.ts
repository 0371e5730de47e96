import { describe, expect, it } from 'vitest';
import { inputText, keyDimension, withUnit } from '../../../src/app/panels/inputText.ts';
import { parseDesign } from '../../../src/design/parse.ts';
import { minimalCorner } from '../../design/fixtures.ts';

const parsed = parseDesign(JSON.stringify(minimalCorner()));
if (parsed.kind === 'bad') throw new Error('the sound corner is not sound');
const { inputs, corner } = parsed.design;
const inputAt = (path: string) => {
  const found = inputs.find((input) => input.path === path);
  if (found === undefined) throw new Error(`no input at ${path}`);
  return found;
};
const partOf = (id: string) => corner.parts.findIndex((part) => part.id === id);

describe('a value as shown', () => {
  it('is what was typed, whatever unit is chosen', () => {
    const height = inputAt(`parts[${partOf('rotor')}].height`);
    for (const unit of ['mm', 'in'] as const) expect(inputText(height, unit, 'mm')).toBe('1 7/8" ±1/64');
  });

  it('is in the chosen unit where a number of mm was written or assumed', () => {
    const diameter = inputAt(`parts[${partOf('rotor')}].diameter`);
    expect(inputText(diameter, 'mm', undefined)).toBe('310 mm');
    // 310 / 25.4 = 12.2047...
    expect(inputText(diameter, 'in', undefined)).toBe('12.205 in');
    const bore = inputAt(`parts[${partOf('rotor')}].centreBore`);
    expect(bore.assumed).toBe(true);
    expect(inputText(bore, 'mm', undefined)).toBe('68 mm');
  });

  it('has the unit of the file where it was typed without one', () => {
    const typed = { ...inputAt(`parts[${partOf('rotor')}].height`), typed: '6 5/8' };
    expect(inputText(typed, 'mm', 'in')).toBe('6 5/8 in');
    expect(inputText(typed, 'in', undefined)).toBe('6 5/8 mm');
    expect(withUnit('6 5/8 ±1/32', 'in')).toBe('6 5/8 ±1/32 in');
    for (const told of ['6 5/8"', '168 mm', '']) expect(withUnit(told, 'in')).toBe(told);
    expect(withUnit('6 5/8', undefined)).toBe('6 5/8');
  });

  it('of an angle is in degrees', () => {
    expect(inputText(inputAt(`parts[${partOf('caliper')}].bleedScrew.directionDeg`), 'mm', undefined)).toBe(
      '−60°',
    );
  });
});

describe('the key dimension', () => {
  const of = (id: string, kind: 'rotor' | 'tyre' | 'damperRod' | 'bearingHousing', label: string) =>
    keyDimension(inputs, { partIndex: partOf(id), kind, label }, 'mm', 'mm');

  it('is that of the solid, not of the whole part', () => {
    expect(of('rotor', 'rotor', 'Rotor')).toBe('Ø 310 mm');
    expect(of('damper', 'damperRod', 'Damper rod')).toBe('Ø 14 mm');
    expect(of('hub', 'bearingHousing', 'Housing')).toBe('Ø 80 mm');
  });

  it('leaves the tolerance out and keeps the unit', () => {
    const path = `parts[${partOf('rotor')}].diameter`;
    const typed = inputs.map((input) => (input.path === path ? { ...input, typed: '12 1/4 ±1/32' } : input));
    const rotor = { partIndex: partOf('rotor'), kind: 'rotor' as const, label: 'Rotor' };
    expect(keyDimension(typed, rotor, 'mm', 'in')).toBe('Ø 12 1/4 in');
  });

  it('is left out where the label says it', () => {
    expect(of('tyre', 'tyre', 'Tyre')).toBe('245/65R17');
    expect(of('tyre', 'tyre', 'Tyre 245/65R17')).toBe('');
  });
});
