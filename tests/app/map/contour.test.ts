import { describe, expect, it } from 'vitest';
import { type Segment, zeroContour } from '../../../src/app/map/contour.ts';
import { between, mulberry32 } from '../../oracles/random.ts';

const XS = [0, 0.1, 0.25, 0.5, 0.8, 1];
const YS = [0, 0.3, 0.4, 0.9, 1];
const field = (f: (x: number, y: number) => number) => YS.flatMap((y) => XS.map((x) => f(x, y)));
const lengthOf = (segments: Segment[]) =>
  segments.reduce((sum, { x1, y1, x2, y2 }) => sum + Math.hypot(x2 - x1, y2 - y1), 0);

describe('the contour of a field', () => {
  it('is the zero line of a plane, at full length', () => {
    const random = mulberry32(11);
    for (let trial = 0; trial < 50; trial++) {
      // A line through a point well within the square, at any angle.
      const [px, py, angle] = [
        between(random, 0.2, 0.8),
        between(random, 0.2, 0.8),
        between(random, 0, Math.PI),
      ];
      const [a, b] = [Math.sin(angle), -Math.cos(angle)];
      const segments = zeroContour(
        XS,
        YS,
        field((x, y) => a * (x - px) + b * (y - py)),
        1e9,
      );
      for (const { x1, y1, x2, y2 } of segments) {
        expect(a * (x1 - px) + b * (y1 - py), `trial ${trial} of seed 11`).toBeCloseTo(0, 12);
        expect(a * (x2 - px) + b * (y2 - py), `trial ${trial} of seed 11`).toBeCloseTo(0, 12);
      }
      // Chord of the unit square through (px, py) at that angle.
      const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
      const to = (d: number, p: number) => (d > 0 ? (1 - p) / d : d < 0 ? -p / d : Infinity);
      const chord = Math.min(to(dx, px), to(dy, py)) + Math.min(to(-dx, px), to(-dy, py));
      expect(lengthOf(segments), `trial ${trial} of seed 11`).toBeCloseTo(chord, 9);
    }
  });

  it('cuts off the corners unlike the mean if two opposite corners of a cell are below zero', () => {
    // Mean above zero: the two negative corners are separate.
    const apart = zeroContour([0, 1], [0, 1], [-1, 3, 3, -1], 1e9);
    expect(apart).toHaveLength(2);
    for (const { x1, y1, x2, y2 } of apart)
      expect(Math.hypot(x2 - x1, y2 - y1)).toBeCloseTo(0.25 * Math.SQRT2, 12);
    // Mean below zero: they are connected, and the two positive corners are separate.
    const joined = zeroContour([0, 1], [0, 1], [-3, 1, 1, -3], 1e9);
    expect(joined).toHaveLength(2);
    for (const { x1, y1, x2, y2 } of joined)
      expect(Math.hypot(x2 - x1, y2 - y1)).toBeCloseTo(0.25 * Math.SQRT2, 12);
  });

  it('skips cells with an unknown corner, and treats far as the cap', () => {
    expect(zeroContour([0, 1], [0, 1], [Number.NaN, 1, -1, 1], 40)).toEqual([]);
    const [segment] = zeroContour([0, 1], [0, 1], [-10, -10, Infinity, Infinity], 40);
    expect(segment.y1).toBeCloseTo(0.2, 12);
    expect(segment.y2).toBeCloseTo(0.2, 12);
  });
});
