import { describe, expect, it } from 'vitest';
import {
  acrossCornersMm,
  FASTENER_SIZES,
  readFastenerSize,
  wrenchOpeningMm,
} from '../../src/design/fastenerSizes.ts';

const of = (name: string) => readFastenerSize(name);

describe('published dimensions of bolts', () => {
  it.each([
    // ISO 272, 4014, 4032, 7089, 273 (medium).
    ['M6', 10, 4, 5.2, 12, 1.8, 6.6],
    ['M8', 13, 5.3, 6.8, 16, 1.8, 9],
    ['M10', 16, 6.4, 8.4, 20, 2.2, 11],
    ['M12', 18, 7.5, 10.8, 24, 2.7, 13.5],
    ['M14', 21, 8.8, 12.8, 28, 2.7, 15.5],
    ['M16', 24, 10, 14.8, 30, 3.3, 17.5],
    ['M18', 27, 11.5, 15.8, 34, 3.3, 20],
    ['M20', 30, 12.5, 18, 37, 3.3, 22],
    ['M24', 36, 15, 21.5, 44, 4.3, 26],
  ])('%s: flats %f, head %f, nut %f, washer %f x %f, hole %f mm', (name, s, k, m, washer, h, hole) => {
    const size = of(name);
    expect(size.diameterMm).toBe(Number(name.slice(1)));
    expect(size.hexHead).toEqual({ acrossMm: s, heightMm: k });
    expect(size.nut).toEqual({ acrossMm: s, heightMm: m });
    expect(size.washer).toEqual({ acrossMm: washer, heightMm: h });
    expect(size.clearanceHoleMm).toBe(hole);
  });

  it.each([
    // ASME B18.2.1 (hex bolt), B18.2.2 (hex nut), in; B18.2.8 normal hole, mm.
    ['3/8', 0.5625, 0.25, 0.5625, 0.3281, 10.3],
    ['7/16', 0.625, 0.2969, 0.6875, 0.375, 11.9],
    ['1/2', 0.75, 0.3438, 0.75, 0.4375, 14.3],
    ['5/8', 0.9375, 0.4219, 0.9375, 0.5469, 17.5],
    ['3/4', 1.125, 0.5, 1.125, 0.6406, 20.6],
  ])('%s in: flats %f, head %f, nut %f x %f in, hole %f mm', (name, flats, head, nutFlats, nut, hole) => {
    const size = of(name);
    const inches = (mm: number) => mm / 25.4;
    expect(inches(size.hexHead.acrossMm)).toBeCloseTo(flats, 9);
    expect(inches(size.hexHead.heightMm)).toBeCloseTo(head, 4);
    expect(inches(size.nut.acrossMm)).toBeCloseTo(nutFlats, 9);
    expect(inches(size.nut.heightMm)).toBeCloseTo(nut, 4);
    expect(size.clearanceHoleMm).toBe(hole);
  });

  it('socket heads over the knurl are those of ISO 4762, one and a half diameters in inches (ASME B18.3)', () => {
    expect(of('M8').socketHead).toEqual({ acrossMm: 13.27, heightMm: 8 });
    expect(of('M10').socketHead).toEqual({ acrossMm: 16.27, heightMm: 10 });
    expect(of('M12').socketHead).toEqual({ acrossMm: 18.27, heightMm: 12 });
    expect(of('M18').socketHead).toBeUndefined();
    for (const name of ['3/8', '7/16', '1/2', '5/8', '3/4'])
      expect((of(name).socketHead?.acrossMm ?? 0) / of(name).diameterMm).toBeCloseTo(1.5, 2);
  });

  it('every size holds together: a hole passes the shank, and the washer covers the hole and bears the head', () => {
    expect(FASTENER_SIZES).toHaveLength(14);
    for (const { name, diameterMm, clearanceHoleMm, hexHead, nut, washer } of FASTENER_SIZES) {
      expect(clearanceHoleMm, name).toBeGreaterThan(diameterMm);
      expect(washer.acrossMm, name).toBeGreaterThan(Math.max(clearanceHoleMm, hexHead.acrossMm));
      expect(nut.heightMm, name).toBeGreaterThan(hexHead.heightMm);
      expect(nut.acrossMm, name).toBeGreaterThanOrEqual(hexHead.acrossMm);
    }
  });

  it('a hexagon is s / cos 30 degrees across its corners', () => {
    // 16 mm flats: 18.475 mm; ISO 4014 asks for 17.77 mm or more, since real corners are rounded.
    expect(acrossCornersMm(16)).toBeCloseTo(18.475, 3);
    for (const { hexHead } of FASTENER_SIZES)
      expect(acrossCornersMm(hexHead.acrossMm)).toBeCloseTo((2 / Math.sqrt(3)) * hexHead.acrossMm, 9);
  });
});

describe('wrench openings', () => {
  it.each([
    // Machinery's Handbook, table of wrench openings from ASME B18.2.2 (appendix), in.
    [3 / 8, 0.378, 0.384],
    [7 / 16, 0.44, 0.446],
    [1 / 2, 0.504, 0.51],
    [9 / 16, 0.566, 0.573],
    [5 / 8, 0.629, 0.636],
    [11 / 16, 0.692, 0.699],
    [3 / 4, 0.755, 0.763],
    [13 / 16, 0.818, 0.826],
    [7 / 8, 0.88, 0.888],
    [15 / 16, 0.944, 0.953],
    [1, 1.006, 1.015],
    [17 / 16, 1.068, 1.077],
    [9 / 8, 1.132, 1.142],
    [5 / 4, 1.257, 1.267],
  ])('%f in: %f to %f in', (flats, least, most) => {
    const opening = wrenchOpeningMm(25.4 * flats);
    // The table gives thousandths, some cut off and some rounded, of the opening and of its tolerance.
    expect(Math.abs(opening.least / 25.4 - least)).toBeLessThan(0.001);
    expect(Math.abs((opening.most - opening.least) / 25.4 - (most - least))).toBeLessThan(0.001);
  });
});

describe('a size as typed', () => {
  it.each([
    ['M12', 'M12'],
    ['m12', 'M12'],
    [' M 12 ', 'M12'],
    ['M12x1.25', 'M12'],
    ['M12 × 1,5', 'M12'],
    ['M12-1.75', 'M12'],
    ['1/2', '1/2 in'],
    ['1/2 in', '1/2 in'],
    ['1/2"', '1/2 in'],
    ['1/2-20', '1/2 in'],
    ['1/2-13 UNC', '1/2 in'],
    ['7/16 in-20 UNF', '7/16 in'],
    ['3 / 8', '3/8 in'],
  ])('%s is %s', (typed, name) => {
    expect(readFastenerSize(typed).name).toBe(name);
  });

  it.each(['M13', 'M1.2', '9/32', '5/16 in', 'M120'])(
    '%s is not known, and the message lists what is',
    (typed) => {
      expect(() => readFastenerSize(typed)).toThrow(
        /^is not a bolt size.*M6, M8, .*M24, 3\/8 in, .*3\/4 in$/,
      );
    },
  );

  it.each(['', '12', '0.5', 'half an inch', '1/2 mm', 'M'])('"%s" cannot be read', (typed) => {
    expect(() => readFastenerSize(typed)).toThrow(/^is not a bolt size that can be read; write one of M6/);
  });
});
