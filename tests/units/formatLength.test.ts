import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { degToRad, radToDeg } from '../../src/units/angle.ts';
import { formatInches, formatLength, formatMm, UNIT_CHOICES } from '../../src/units/formatLength.ts';
import { parseLength } from '../../src/units/parseLength.ts';

describe('lengths as shown', () => {
  it.each([
    [87.3125, 16, '3 7/16 in'],
    [87.4, 16, '3 7/16 in +'],
    [87.2, 16, '3 7/16 in −'],
    [-87.4, 16, '−3 7/16 in +'],
    [-87.2, 16, '−3 7/16 in −'],
    [12.7, 64, '1/2 in'],
    [25.4, 32, '1 in'],
    [0, 16, '0 in'],
    [0.1, 16, '0 in +'],
    [-0.1, 16, '−0 in +'],
    [25.3, 16, '1 in −'],
    [6.7468750000001, 64, '17/64 in'],
  ] as const)('%d mm to 1/%d is %s', (mm, denominator, text) => {
    expect(formatInches(mm, denominator)).toBe(text);
  });

  it('shows millimetres with their sign, even if they round to 0', () => {
    expect(formatMm(139.7)).toBe('139.70 mm');
    expect(formatMm(-0.004, 2)).toBe('−0.00 mm');
    expect(formatMm(12.35, 1)).toBe('12.3 mm');
    expect(formatLength(2.286, 'in')).toBe('0.090 in');
    expect(formatLength(-2.286, 'mm')).toBe('−2.29 mm');
    expect(formatLength(87.4, 'in/32')).toBe('3 7/16 in +');
  });

  it('rejects values that are not finite', () => {
    for (const value of [NaN, Infinity, -Infinity]) {
      for (const choice of UNIT_CHOICES) expect(() => formatLength(value, choice)).toThrow(RangeError);
    }
  });

  it('reads a shown fraction back within half a step, on the side that its mark shows', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20000, max: 20000, noNaN: true }),
        fc.constantFrom(16 as const, 32 as const, 64 as const),
        (mm, denominator) => {
          const text = formatInches(mm, denominator);
          const read = parseLength(text);
          const halfStep = 25.4 / denominator / 2;
          const over = Math.abs(mm) - Math.abs(read.mm);
          expect(Math.abs(mm - read.mm)).toBeLessThanOrEqual(halfStep + 1e-9);
          if (text.endsWith('+')) expect(over).toBeGreaterThan(0);
          else if (text.endsWith('−')) expect(over).toBeLessThan(0);
          else expect(Math.abs(over)).toBeLessThanOrEqual(1.001e-6);
          if (read.plusMinusMm === undefined) expect(text.endsWith('in')).toBe(true);
          else expect(Math.abs(mm - read.mm)).toBeLessThanOrEqual(read.plusMinusMm + 1e-9);
        },
      ),
      { numRuns: 3000, verbose: 1 },
    );
  });

  it('shows every fraction as exact and reads it back to the last bit', () => {
    for (const denominator of [16, 32, 64] as const) {
      for (let steps = 0; steps < 40 * denominator; steps++) {
        const mm = (127 * steps) / (5 * denominator);
        const text = formatInches(mm, denominator);
        expect(text).toMatch(/^(\d+ )?(\d+|\d+\/\d+) in$/);
        expect(parseLength(text).mm).toBe(mm);
      }
    }
  });

  it('reads shown decimals back within half of the last place', () => {
    fc.assert(
      fc.property(fc.double({ min: -20000, max: 20000, noNaN: true }), (mm) => {
        expect(Math.abs(parseLength(formatLength(mm, 'mm')).mm - mm)).toBeLessThanOrEqual(0.005 + 1e-9);
        expect(Math.abs(parseLength(formatLength(mm, 'in')).mm - mm)).toBeLessThanOrEqual(0.0127 + 1e-9);
      }),
      { numRuns: 1000, verbose: 1 },
    );
  });
});

describe('angles', () => {
  it('converts half a turn to pi', () => {
    expect(degToRad(180)).toBe(Math.PI);
    expect(radToDeg(Math.PI / 2)).toBe(90);
    expect(radToDeg(degToRad(-12.5))).toBeCloseTo(-12.5, 12);
  });
});
