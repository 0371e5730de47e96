import { describe, expect, it } from 'vitest';
import {
  acrossCornersMm,
  FASTENER_SIZES,
  readFastenerSize,
  wrenchOpeningMm,
} from '../../../src/design/fasteners/fastenerSizes.ts';

const of = (name: string) => readFastenerSize(name);

describe('published dimensions of bolts', () => {
  it.each([
    // ISO 272; ISO 4014 grade B and ISO 4032, at most; ISO 7089, at most and at least; ISO 273 (medium).
    ['M6', 10, 4.24, 5.2, 12, 1.8, 1.4, 6.6],
    ['M8', 13, 5.54, 6.8, 16, 1.8, 1.4, 9],
    ['M10', 16, 6.69, 8.4, 20, 2.2, 1.8, 11],
    ['M12', 18, 7.79, 10.8, 24, 2.7, 2.3, 13.5],
    ['M14', 21, 9.09, 12.8, 28, 2.7, 2.3, 15.5],
    ['M16', 24, 10.29, 14.8, 30, 3.3, 2.7, 17.5],
    ['M18', 27, 11.85, 15.8, 34, 3.3, 2.7, 20],
    ['M20', 30, 12.85, 18, 37, 3.3, 2.7, 22],
    ['M22', 34, 14.35, 19.4, 39, 3.3, 2.7, 24],
    ['M24', 36, 15.35, 21.5, 44, 4.3, 3.7, 26],
  ])('%s: flats %f, head %f, nut %f, washer %f x %f, at least %f, hole %f mm', (...row) => {
    const [name, s, k, m, washer, h, least, hole] = row;
    const size = of(name);
    expect(size.diameterMm).toBe(Number(name.slice(1)));
    expect(size.hexHead).toEqual({ acrossMm: s, heightMm: k, standard: 'ISO 4014 and 4017' });
    expect(size.nut).toEqual({ acrossMm: s, heightMm: m, standard: 'ISO 4032' });
    expect(size.washer).toEqual({
      acrossMm: washer,
      heightMm: h,
      leastHeightMm: least,
      standard: 'ISO 7089',
    });
    expect(size.clearanceHoleMm).toBe(hole);
  });

  it('gives the greatest head height as nominal plus js15 (ISO 286-2, from memory)', () => {
    // Nominal heights of ISO 4014.
    const nominal = [4, 5.3, 6.4, 7.5, 8.8, 10, 11.5, 12.5, 14, 15];
    const metric = FASTENER_SIZES.filter(({ name }) => name.startsWith('M'));
    const js15 = (mm: number) => (mm <= 6 ? 0.24 : mm <= 10 ? 0.29 : 0.35);
    metric.forEach(({ name, hexHead }, k) => {
      expect(hexHead.heightMm - nominal[k], name).toBeCloseTo(js15(nominal[k]), 9);
    });
  });

  it.each([
    // ASME B18.2.1 (hex bolt; 9/16 in: hex cap screw), B18.2.2 (hex nut), B18.21.1 (type A, narrow), at most, in; B18.2.8
    // normal hole, mm.
    ['3/8', 0.5625, 0.268, 0.5625, 0.337, 0.827, 0.08, 10.3],
    ['7/16', 0.625, 0.316, 0.6875, 0.385, 0.937, 0.08, 11.9],
    ['1/2', 0.75, 0.364, 0.75, 0.448, 1.092, 0.121, 14.3],
    ['9/16', 0.8125, 0.371, 0.875, 0.496, 1.186, 0.121, 15.9],
    ['5/8', 0.9375, 0.444, 0.9375, 0.559, 1.342, 0.121, 17.5],
    ['3/4', 1.125, 0.524, 1.125, 0.665, 1.499, 0.16, 20.6],
  ])('%s in: flats %f, head %f, nut %f x %f, washer %f x %f in, hole %f mm', (...row) => {
    const [name, flats, head, nutFlats, nut, washer, thick, hole] = row;
    const size = of(name);
    const inches = (mm: number) => mm / 25.4;
    expect(inches(size.hexHead.acrossMm)).toBeCloseTo(flats, 9);
    expect(inches(size.hexHead.heightMm)).toBeCloseTo(head, 9);
    expect(inches(size.nut.acrossMm)).toBeCloseTo(nutFlats, 9);
    expect(inches(size.nut.heightMm)).toBeCloseTo(nut, 9);
    expect(inches(size.washer.acrossMm)).toBeCloseTo(washer, 9);
    expect(inches(size.washer.heightMm)).toBeCloseTo(thick, 9);
    expect(size.clearanceHoleMm).toBe(hole);
  });

  it('gives socket heads over the knurl by ISO 4762, and one and a half diameters in inches (ASME B18.3)', () => {
    expect(of('M8').socketHead).toMatchObject({ acrossMm: 13.27, heightMm: 8 });
    expect(of('M10').socketHead).toMatchObject({ acrossMm: 16.27, heightMm: 10 });
    expect(of('M12').socketHead).toMatchObject({ acrossMm: 18.27, heightMm: 12 });
    for (const name of ['M18', 'M22', '9/16']) expect(of(name).socketHead).toBeUndefined();
    for (const name of ['3/8', '7/16', '1/2', '5/8', '3/4'])
      expect((of(name).socketHead?.acrossMm ?? 0) / of(name).diameterMm).toBeCloseTo(1.5, 2);
  });

  it('is consistent for every size: the hole passes the shank, the washer covers the hole and carries the head', () => {
    expect(FASTENER_SIZES).toHaveLength(16);
    for (const { name, diameterMm, clearanceHoleMm, hexHead, nut, washer } of FASTENER_SIZES) {
      expect(clearanceHoleMm, name).toBeGreaterThan(diameterMm);
      expect(washer.acrossMm, name).toBeGreaterThan(Math.max(clearanceHoleMm, hexHead.acrossMm));
      expect(washer.leastHeightMm, name).toBeLessThan(washer.heightMm);
      expect(nut.heightMm, name).toBeGreaterThan(hexHead.heightMm);
      expect(nut.acrossMm, name).toBeGreaterThanOrEqual(hexHead.acrossMm);
    }
  });

  it('computes the width of a hexagon across its corners as s / cos 30 degrees', () => {
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
    'rejects %s with a list of the known sizes',
    (typed) => {
      expect(() => readFastenerSize(typed)).toThrow(
        /bolt size; write one of M6, M8, .*M24, 3\/8 in, .*3\/4 in$/,
      );
    },
  );

  it.each(['', '12', '0.5', 'half an inch', '1/2 mm', 'M'])('rejects "%s" as unreadable', (typed) => {
    expect(() => readFastenerSize(typed)).toThrow(/^cannot be read as a bolt size; write one of M6/);
  });
});
