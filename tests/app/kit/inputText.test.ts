import { describe, expect, it } from 'vitest';
import { inputText, withUnit } from '../../../src/app/kit/inputText.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

const design = readDesign(minimalCorner());
const { inputs, corner } = design;
const inputAt = (path: string) => {
  const found = inputs.find((input) => input.path === path);
  if (found === undefined) throw new Error(`no input at ${path}`);
  return found;
};
const partOf = (id: string) => corner.parts.findIndex((part) => part.id === id);

describe('a value as shown', () => {
  it('is the typed text in any selected unit', () => {
    const height = inputAt(`parts[${partOf('rotor')}].height`);
    for (const unit of ['mm', 'in'] as const) expect(inputText(height, unit, 'mm')).toBe('1 7/8" ±1/64');
  });

  it('is in the selected unit if a number of mm was given or assumed', () => {
    const diameter = inputAt(`parts[${partOf('rotor')}].diameter`);
    expect(inputText(diameter, 'mm', undefined)).toBe('310 mm');
    // 310 / 25.4 = 12.2047...
    expect(inputText(diameter, 'in', undefined)).toBe('12.205 in');
    const bore = inputAt(`parts[${partOf('rotor')}].centreBore`);
    expect(bore.assumed).toBe(true);
    expect(inputText(bore, 'mm', undefined)).toBe('68 mm');
  });

  it('has the unit of the file if it was typed without one', () => {
    const typed = { ...inputAt(`parts[${partOf('rotor')}].height`), typed: '6 5/8' };
    expect(inputText(typed, 'mm', 'in')).toBe('6 5/8 in');
    expect(inputText(typed, 'in', undefined)).toBe('6 5/8 mm');
    expect(withUnit('6 5/8 ±1/32', 'in')).toBe('6 5/8 ±1/32 in');
    for (const text of ['6 5/8"', '168 mm', '']) expect(withUnit(text, 'in')).toBe(text);
    expect(withUnit('6 5/8', undefined)).toBe('6 5/8');
  });

  it('is in degrees for an angle', () => {
    expect(inputText(inputAt(`parts[${partOf('caliper')}].bleedScrew.directionDeg`), 'mm', undefined)).toBe(
      '−60°',
    );
  });
});
