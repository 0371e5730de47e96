import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LengthError, parseLength } from '../../src/units/parseLength.ts';
import { ofDecimal, plus, type Rational, times, toDouble } from '../oracles/rational.ts';

/** Millimetres per unit: the international inch is exactly 25.4 mm and the foot 12 inches (1959 agreement). */
const MM_IN: Readonly<Record<string, Rational>> = {
  mm: [1n, 1n],
  cm: [10n, 1n],
  m: [1000n, 1n],
  in: [254n, 10n],
  '"': [254n, 10n],
  thou: [254n, 10000n],
  ft: [3048n, 10n],
  "'": [3048n, 10n],
};

describe('lengths as typed', () => {
  // Inches to mm by hand from 1 in = 25.4 mm.
  it.each([
    ['1/4 in', 6.35, undefined],
    ['3 7/16"', 87.3125, undefined],
    ['3-7/16 in ±1/32', 87.3125, 0.79375],
    ['5\' 2 1/2"', 1587.5, undefined],
    ['5\'-2 1/2"', 1587.5, undefined],
    ['5 ft 2.5 in', 1587.5, undefined],
    ["2'", 609.6, undefined],
    ['139,7 mm', 139.7, undefined],
    ['0,125 in', 3.175, undefined],
    ['.090 in', 2.286, undefined],
    ['139.7 mm ±0.5', 139.7, 0.5],
    ['139.7mm+/-0.5mm', 139.7, 0.5],
    ['139.7 mm +- 1/64 in', 139.7, 0.396875],
    ['-12 mm', -12, undefined],
    ['−12 mm', -12, undefined],
    ['- 12 mm', -12, undefined],
    ['+12 mm', 12, undefined],
    ['-3 7/16 in', -87.3125, undefined],
    ['-½ in', -12.7, undefined],
    ['3½ in', 88.9, undefined],
    ['3-½″', 88.9, undefined],
    ['2 ⅝ inches', 66.675, undefined],
    ['1 inch', 25.4, undefined],
    ["1''", 25.4, undefined],
    ['3⁄8 in', 9.525, undefined],
    ['1.2 cm', 12, undefined],
    ['0.5 m', 500, undefined],
    ['1 M', 1000, undefined],
    ['-0 mm', 0, undefined],
    ['1/3 in', 25.4 / 3, undefined],
    ['  7   3/8   in  ', 187.325, undefined],
    ['1234567890123456 mm', 1234567890123456, undefined],
    ['3.93700787401575 in', 100.00000000000006, undefined],
    ['3.937007874015748 in', 100, undefined],
    ['90 thou', 2.286, undefined],
    ['62.5 thou ±1', 1.5875, 0.0254],
    ['1/2 in ±5 thou', 12.7, 0.127],
    ['12"3/8', 314.325, undefined],
    ['12" 3/8', 314.325, undefined],
    ['12"-3/8 in', 314.325, undefined],
    ['12″3⁄8″ ±1/32', 314.325, 0.79375],
    ['12"⅜', 314.325, undefined],
    ['−12 in 3/8', -314.325, undefined],
    ['5\' 2"1/2', 1587.5, undefined],
  ])('%s', (typed, mm, plusMinusMm) => {
    const read = parseLength(typed);
    expect(read.mm).toBe(mm);
    expect(Object.is(read.mm, -0)).toBe(false);
    expect(read.plusMinusMm).toBe(plusMinusMm);
  });

  it("uses the declared unit for a value without one, and the value's unit for a tolerance without one", () => {
    expect(parseLength('1.25', { unit: 'in' })).toEqual({ mm: 31.75, plusMinusMm: undefined });
    expect(parseLength('1.25', { unit: 'mm' }).mm).toBe(1.25);
    expect(parseLength('5 1/2 ±1/16', { unit: 'in' })).toEqual({ mm: 139.7, plusMinusMm: 1.5875 });
    expect(parseLength('139.7 mm ±0.5', { unit: 'in' }).plusMinusMm).toBe(0.5);
    expect(parseLength('10 ±1 mm', { unit: 'mm' })).toEqual({ mm: 10, plusMinusMm: 1 });
  });

  it.each([
    ['', /empty/],
    ['   ', /empty/],
    ['1.25', /has no unit; write mm, cm, m, in/],
    ['mm', /"mm" is not a length: it does not begin with a number; write one such as/],
    ['wide', /it does not begin with a number/],
    ['nan', /it does not begin with a number/],
    ['Infinity mm', /it does not begin with a number/],
    ['5 furlong', /"furlong" is not a unit/],
    ['1e3 mm', /"e3 mm" is not a unit/],
    ['0x10 mm', /"x10 mm" is not a unit/],
    ['5 mm 3', /"mm 3" is not a unit/],
    ['3 7/16 1/2 in', /3 7\/16 1\/2 is not a number/],
    ['3 -7/16 in', /is not a number/],
    ['3 - 7/16 in', /is not a number/],
    ['1 2 in', /is not a number/],
    ['1/2/3 in', /is not a number/],
    ['1.5/2 in', /is not a number/],
    ['5. mm', /is not a number/],
    ['. mm', /is not a number/],
    ['--5 mm', /is not a number/],
    ['1,234.5 mm', /is not a number/],
    ['1.234,5 mm', /is not a number/],
    ['1,234 in', /is ambiguous; write 1234 or 1.234/],
    ['1/0 in', /has the denominator 0/],
    ['3 7/0 in', /has the denominator 0/],
    ['37/16 in', /not less than one/],
    ['3 16/16 in', /not less than one/],
    ["5' 2", /feet must be followed by inches/],
    ["5' 2 mm", /feet must be followed by inches/],
    ["5.5' 2 in", /must be a whole number/],
    ["5' 12 in", /less than 12/],
    ['5 mm ±', /it has no number/],
    ['±5 mm', /it has no number/],
    ['5 mm ±-1', /has a sign/],
    ['5 mm ±1 ±1', /more than one ±/],
    ['5 ±1 mm', /has no unit/],
    ['5 mm +', /only after inches/],
    ['5 in ±1/8 in +', /cannot end in/],
    ['123456789012345678 mm', /more than 17 digits in one number; write fewer/],
    ['0.123456789012345678 in', /more than 17 digits/],
    ['5.5"3/8', /must be a whole number/],
    ['1/2"3/8', /must be a whole number/],
    ['12"3', /is not a unit/],
    ['12" 16/8', /not less than one/],
    ['12 mm 3/8', /is not a unit/],
    ['12" 3/8 mm', /is not a unit/],
    ['90 mil', /"mil" is not a unit; write mm, cm, m, in \(or "\), thou or ft/],
    ['1'.repeat(200), /longer than 80/],
  ])('rejects %j', (typed, message) => {
    expect(() => parseLength(typed)).toThrow(LengthError);
    expect(() => parseLength(typed)).toThrow(message);
  });

  it('requires the unit of the value if the tolerance has a unit other than the declared one', () => {
    expect(() => parseLength('5 1/2 ±0.5 mm', { unit: 'in' })).toThrow(/write the unit of both/);
  });

  it('equals exact rational arithmetic to the last bit', () => {
    const digits = (most: number) => fc.nat({ max: most });
    const number = fc.oneof(
      fc.record({ whole: digits(9999), n: digits(127), d: fc.integer({ min: 1, max: 128 }) }).map((f) => {
        const n = f.n % f.d;
        const text = f.whole === 0 ? `${n}/${f.d}` : `${f.whole} ${n}/${f.d}`;
        return { text, value: [BigInt(f.whole * f.d + n), BigInt(f.d)] as Rational };
      }),
      fc.tuple(digits(9999), fc.stringMatching(/^\d{1,13}$/)).map(([whole, part]) => {
        const text = `${whole}.${part}`;
        return { text, value: ofDecimal(text) };
      }),
      fc.tuple(digits(99999), digits(99999)).map(([whole, part]) => {
        const text = `${whole}.${String(part).padStart(5, '0')}`;
        return { text, value: ofDecimal(text) };
      }),
    );
    const unit = fc.constantFrom(...Object.keys(MM_IN));
    fc.assert(
      fc.property(number, unit, fc.boolean(), ({ text, value }, name, negative) => {
        const expected = toDouble(times(value, MM_IN[name]));
        const read = parseLength(`${negative ? '-' : ''}${text} ${name}`).mm;
        expect(read).toBe(negative && expected !== 0 ? -expected : expected);
      }),
      { numRuns: 2000, verbose: 1 },
    );
  });

  it('adds feet and inches exactly', () => {
    fc.assert(
      fc.property(
        fc.nat({ max: 500 }),
        fc.nat({ max: 11 }),
        fc.integer({ min: 1, max: 64 }),
        fc.nat({ max: 63 }),
        (feet, inches, d, over) => {
          const n = over % d;
          const inchValue: Rational = [BigInt(inches * d + n), BigInt(d)];
          const exact = plus(times([BigInt(feet), 1n], MM_IN.ft), times(inchValue, MM_IN.in));
          expect(parseLength(`${feet}' ${inches} ${n}/${d}"`).mm).toBe(toDouble(exact));
        },
      ),
      { numRuns: 1000, verbose: 1 },
    );
  });

  it('reads any text as a finite length or rejects it', () => {
    const marks = fc.string({ unit: fc.constantFrom(...'0123456789 ./,-+±\'"inmft½−'), maxLength: 20 });
    fc.assert(
      fc.property(fc.oneof(fc.string(), marks), (text) => {
        try {
          const read = parseLength(text, { unit: 'mm' });
          expect(Number.isFinite(read.mm)).toBe(true);
          expect(read.plusMinusMm ?? 0).toBeGreaterThanOrEqual(0);
        } catch (error) {
          expect(error).toBeInstanceOf(LengthError);
          expect((error as Error).message.length).toBeLessThan(250);
        }
      }),
      { numRuns: 5000, verbose: 1 },
    );
  });
});
