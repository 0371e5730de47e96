import { describe, expect, it } from 'vitest';
import { circlePlaces } from '../../src/solids/fasteners/boltHoles.ts';

const INCH = 25.4;

/** Distance between the centres of two holes, `apart` places from each other on the circle. */
function chordMm(count: number, circleMm: number, apart = 1): number {
  const places = circlePlaces(count, circleMm, 0);
  const [[x, z], [u, w]] = [places[0], places[apart]];
  return Math.hypot(u - x, w - z);
}

describe('bolt circles', () => {
  it.each([
    // Chart of bolt centres, cerka.ca: stud to stud of five, as the nearest fraction on a rule.
    [4.5, 2 + 5 / 8, 2.645],
    [4.75, 2 + 3 / 4, 2.792],
    [5, 3, 2.939],
    [5.5, 3 + 1 / 4, 3.233],
  ])('5 on %f in: about %f in, to three places %f in', (circle, chart, chord) => {
    const inches = chordMm(5, circle * INCH) / INCH;
    expect(inches).toBeCloseTo(chord, 3);
    expect(Math.abs(inches - chart)).toBeLessThan(1 / 16);
  });

  it('three studs: the circle is 1.154 times the distance between two (uniaobahia.org)', () => {
    // The source truncates the digits.
    expect(Math.floor((1000 * 114.3) / chordMm(3, 114.3)) / 1000).toBe(1.154);
  });

  it.each([
    // Circle x sin(pi / n), by hand.
    [5, 114.3, 67.184],
    [5, 127, 74.649],
    [5, 139.7, 82.114],
    [6, 139.7, 69.85],
    [6, 135, 67.5],
    [8, 165.1, 63.181],
    [8, 170, 65.056],
    [8, 180, 68.883],
  ])('%i on %f mm: %f mm between neighbours', (count, circle, chord) => {
    expect(chordMm(count, circle)).toBeCloseTo(chord, 3);
  });

  it('five studs: the next but one is sin 72 degrees of the circle away', () => {
    expect(chordMm(5, 114.3, 2) / 114.3).toBeCloseTo(0.9511, 4);
  });

  it('5 on 114.3 mm, the first at the top, the next to the rear: coordinates by hand', () => {
    const expected = [
      [0, 57.15],
      [-54.3529, 17.6603],
      [-33.5919, -46.2353],
      [33.5919, -46.2353],
      [54.3529, 17.6603],
    ];
    circlePlaces(5, 114.3, 0).forEach(([x, z], k) => {
      expect(x).toBeCloseTo(expected[k][0], 4);
      expect(z).toBeCloseTo(expected[k][1], 4);
    });
  });
});
