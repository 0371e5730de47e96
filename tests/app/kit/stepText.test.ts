import { describe, expect, it } from 'vitest';
import { stepText } from '../../../src/app/kit/stepText.ts';
import { parseLength } from '../../../src/units/parseLength.ts';
import { mulberry32 } from '../../oracles/random.ts';

const step = (text: string, steps = 1, unit?: 'mm' | 'in') => stepText('length', text, steps, unit);

describe('a step of a typed length', () => {
  it('is 1/16 inch if inches were typed, and keeps unit, notation and ±', () => {
    expect(step('5 1/2 in ±1/32')).toBe('5 9/16 in ±1/32');
    expect(step('5 1/2 in ±1/32', -1)).toBe('5 7/16 in ±1/32');
    expect(step('5 1/2" +/- 1/64', 8)).toBe('6" +/- 1/64');
    expect(step('3-7/16"')).toBe('3 1/2"');
    expect(step('5½ in')).toBe('5 9/16 in');
    expect(step('7/64 in')).toBe('11/64 in');
    expect(step('5.5 in')).toBe('5.5625 in');
    expect(step(`5' 11 15/16" ±1/16`)).toBe(`6' 0" ±1/16`);
    expect(step('12"3/8 ±1/32')).toBe('12 7/16" ±1/32');
    expect(step('−1/16 in')).toBe('0 in');
    expect(step('0 in', -1)).toBe('−1/16 in');
  });

  it('is 0.5 mm if metric units were typed', () => {
    expect(step('139.7 mm ±0.5')).toBe('140.2 mm ±0.5');
    expect(step('139,7 mm')).toBe('140,2 mm');
    expect(step('139.5 mm')).toBe('140 mm');
    expect(step('13.95 cm')).toBe('14 cm');
    expect(step('310 mm', -10)).toBe('305 mm');
    expect(step('0.5 mm', -2)).toBe('−0.5 mm');
  });

  it('is 1 thou if thou were typed', () => {
    expect(step('90 thou ±1')).toBe('91 thou ±1');
    expect(step('62.5 thou', -3)).toBe('59.5 thou');
  });

  it('uses the unit of the file if none was typed', () => {
    expect(step('6 5/8', 1, 'in')).toBe('6 11/16');
    expect(step('40', 1, 'mm')).toBe('40.5');
    expect(step('40')).toBeUndefined();
  });

  it('leaves a text that is not a length unchanged', () => {
    for (const text of ['', 'nonsense', '12 furlongs', '5 1/2 in ±1/32 ±1'])
      expect(step(text) ?? text).toBe(text);
  });

  it('changes the value by exactly the steps and keeps the tolerance', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const random = mulberry32(seed);
      const whole = 1 + Math.floor(random() * 30);
      const steps = Math.floor(random() * 41) - 20;
      const texts = [
        `${whole} ${1 + 2 * Math.floor(random() * 16)}/32 in ±1/64`,
        `${whole}.${Math.floor(random() * 10)} mm ±0.2`,
        `${whole}.${Math.floor(random() * 100)} cm`,
        `${whole}.125 in`,
        `${whole}.5 ft`,
      ];
      for (const text of texts) {
        const [before, after] = [parseLength(text), parseLength(step(text, steps) as string)];
        const each = /in|ft/.test(text) ? 25.4 / 16 : 0.5;
        expect(
          Math.abs(after.mm - before.mm - steps * each),
          `seed ${seed}: ${text} by ${steps}`,
        ).toBeLessThan(/ft/.test(text) ? 2e-4 : 1e-9);
        expect(after.plusMinusMm).toBe(before.plusMinusMm);
      }
    }
  });
});

describe('a step of an angle or a count', () => {
  it('is one', () => {
    expect(stepText('angle', '95°', 10, undefined)).toBe('105°');
    expect(stepText('angle', '−1.5°', 1, undefined)).toBe('−0.5°');
    expect(stepText('angle', '0.1', -1, undefined)).toBe('−0.9°');
    expect(stepText('angle', '12.5° ±0.5°', 1, undefined)).toBe('13.5° ±0.5°');
    expect(stepText('count', '5', -1, undefined)).toBe('4');
    expect(stepText('angle', 'up', 1, undefined)).toBeUndefined();
    expect(stepText('text', '5', 1, undefined)).toBeUndefined();
  });
});
