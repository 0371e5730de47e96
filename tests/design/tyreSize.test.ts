import { describe, expect, it } from 'vitest';
import { readTyreSize, tyreDimensions } from '../../src/design/tyreSize.ts';

/**
 * Overall heights in inches, rounded to 0.1, as the page "P-metric tire sizes: P-metric to inches conversion chart"
 * on offroaders.com prints them. Left out are its rows for 275/65R20, 295/60R20, 305/55R20 and 285/65R20, which
 * contradict the arithmetic that all its other rows follow.
 */
const PUBLISHED_INCHES: readonly (readonly [string, number])[] = [
  ['205/70R15', 26.3],
  ['215/75R15', 27.7],
  ['235/75R15', 28.9],
  ['265/70R15', 29.6],
  ['225/75R16', 29.3],
  ['235/85R16', 31.7],
  ['245/75R16', 30.5],
  ['265/70R16', 30.6],
  ['265/75R16', 31.6],
  ['285/75R16', 32.8],
  ['305/70R16', 32.8],
  ['315/75R16', 34.6],
  ['345/75R16', 36.4],
  ['235/65R17', 29.0],
  ['245/70R17', 30.5],
  ['255/75R17', 32.1],
  ['255/80R17', 33.1],
  ['265/70R17', 31.6],
  ['275/70R17', 32.2],
  ['285/70R17', 32.7],
  ['285/75R17', 33.8],
  ['305/65R17', 32.6],
  ['315/70R17', 34.4],
  ['265/60R18', 30.5],
  ['275/65R18', 32.1],
  ['275/70R18', 33.2],
  ['285/75R18', 34.8],
  ['305/70R18', 34.8],
  ['275/60R20', 33.0],
];

/** 25.4 d + 2 W A/100 in mm, worked by hand. */
const EXACT_MM: readonly (readonly [string, number])[] = [
  ['205/55R16', 631.9],
  ['225/45R17', 634.3],
  ['195/65R15', 634.5],
  ['235/85R16', 805.9],
  ['LT265/70R17', 802.8],
  ['315/75R16', 878.9],
];

/**
 * Diameter of the rim by its code, mm, as UN Regulation No. 30 rounds it; from memory, and so is the rule that the
 * section height is rounded to 1 mm before it is doubled.
 */
const R30_RIM_MM: Readonly<Record<number, number>> = { 15: 381, 16: 406, 17: 432, 18: 457, 20: 508 };

describe('tyre sizes', () => {
  it.each(PUBLISHED_INCHES)('%s is %d in high, as published', (designation, inches) => {
    expect(Math.abs(readTyreSize(designation).overallDiameterMm / 25.4 - inches)).toBeLessThanOrEqual(0.06);
  });

  it.each(EXACT_MM)('%s is %d mm high exactly', (designation, mm) => {
    expect(readTyreSize(designation).overallDiameterMm).toBe(mm);
  });

  it('differs from the rounded arithmetic of UN R30 by no more than its roundings', () => {
    for (const [designation] of PUBLISHED_INCHES) {
      const size = readTyreSize(designation);
      const rounded = R30_RIM_MM[size.rimCode] + 2 * Math.round(size.sectionHeightMm);
      // Half a millimetre of the rim and twice half a millimetre of the section.
      expect(Math.abs(size.overallDiameterMm - rounded)).toBeLessThanOrEqual(1.5);
    }
  });

  it('reads flotation sizes in inches', () => {
    // 37X12.5R17LT is given as 940 mm high, about 320 mm wide, on a 17-inch rim by cjtire.com, "Light truck tire
    // identification"; both are rounded there.
    const size = readTyreSize('37X12.5R17LT');
    expect(size).toMatchObject({ kind: 'flotation', rimCode: 17, sectionWidthMm: 317.5 });
    expect(size.overallDiameterMm).toBe(939.8);
    expect(size.sectionHeightMm).toBe(254);
    expect(readTyreSize('33x10.50-15')).toMatchObject({ overallDiameterMm: 838.2, rimCode: 15 });
    expect(readTyreSize('33x10.50-15').sectionWidthMm).toBe(266.7);
  });

  it.each([
    ['205/55R16', '205/55 R16 91V'],
    ['205/55R16', 'p205/55ZR16'],
    ['205/55R16', '205/55ZR16 (91Y)'],
    ['205/55R16', ' 205 / 55 R 16 '],
    ['205/55R16', '205/55RF16 91V XL'],
    ['265/70R17', 'LT265/70R17 121/118S'],
    ['265/70R17', 'LT265/70R17E'],
    ['265/70R17', '265/70R17/E'],
    ['265/70R17', 'LT265/70R17 E 121/118Q'],
    ['35x12.5R17', '35X12.50R17'],
    ['37x12.5R17', '37×12.5 R17 LT 124Q'],
    ['37x12.5R17', '37x12.5R17LT'],
    ['225/70-15', '225/70D15'],
    ['225/70R16', 'P225/70R16'],
    ['31x10.5R15', '31x10.50R15LT'],
    ['31x10.5R15', 'LT31X10.50R15/C 109Q'],
  ])('reads %s and %s alike', (plain, full) => {
    expect(readTyreSize(full)).toEqual(readTyreSize(plain));
  });

  it.each([
    ['', /not a tyre size that can be read; write it as "205\/55R16"/],
    ['205/55', /not a tyre size/],
    ['185R14', /not a tyre size/],
    ['205/55R16x', /not a tyre size/],
    ['7.00R16', /gives neither overall diameter nor section width/],
    ['7.00-16', /gives neither overall diameter nor section width; give overallDiameter and sectionWidth/],
    ['6.50R16', /gives neither/],
    ['7.00R99', /rim diameter of 99/],
    ['205-55-16', /not a tyre size/],
    ['wide', /not a tyre size/],
    ['205/55R1', /rim diameter of 1/],
    ['205/55R99', /rim diameter of 99/],
    ['205/10R16', /aspect ratio of 10/],
    ['999/55R16', /section width of 999/],
    ['18x12.5R17', /overall diameter of 18/],
    ['37x26R17', /section width of 26/],
  ])('rejects %j', (designation, message) => {
    expect(() => readTyreSize(designation)).toThrow(message);
  });

  it('reads a flotation size of light trucks', () => {
    // tirecrawler.com, "Deciphering Your Tire. The Tire Size": 31X10.50R15LT is 31 in tall, 10.50 in wide, on a 15 in wheel.
    expect(readTyreSize('31x10.50R15LT')).toMatchObject({
      kind: 'flotation',
      overallDiameterMm: 787.4,
      sectionWidthMm: 266.7,
      rimCode: 15,
    });
  });

  it('reads a P-metric size', () => {
    // maderr.com, "How to tell tire size": the section height of P225/70R16 is 6.20 in.
    const size = readTyreSize('P225/70R16');
    expect(size).toMatchObject({ kind: 'metric', sectionWidthMm: 225, rimCode: 16 });
    expect(size.sectionHeightMm / 25.4).toBeCloseTo(6.2, 2);
  });

  it.each(['7.00R16', '7.00R16LT 118/114L', '7.00 R16C', '6.50-16'])(
    'accepts %s with measured dimensions',
    (designation) => {
      const measured = { designation, overallDiameter: 745, sectionWidth: 180 };
      expect(tyreDimensions(measured)).toEqual({ overallDiameterMm: 745, sectionWidthMm: 180, rimCode: 16 });
      expect(() => tyreDimensions({ ...measured, sectionWidth: undefined })).toThrow(/gives neither/);
    },
  );

  it('combines one measured dimension with those of the designation', () => {
    expect(tyreDimensions({ designation: '205/55R16', sectionWidth: 210 })).toEqual({
      overallDiameterMm: 631.9,
      sectionWidthMm: 210,
      rimCode: 16,
    });
  });
});
