import { Matrix4, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { frame, lowered } from '../../../src/app/view3d/frame.ts';
import { eyeDirection, squareOn } from '../../../src/app/view3d/standpoint.ts';
import { screenAxes } from '../../../src/math/screenAxes.ts';
import { cross, dot, length, normalize, sub, type Vec3 } from '../../../src/math/vec.ts';
import { between, mulberry32 } from '../../oracles/random.ts';
import { reachOfPoints } from './reachOfPoints.ts';

const AXIS: Vec3 = [0, 1, 0];
const random = mulberry32(5);
const point = (): Vec3 => [
  between(random, -500, 500),
  between(random, -500, 500),
  between(random, -500, 500),
];

describe('standpoints', () => {
  it('look at a corner from the named direction (ISO 8855: X forward, Y left, Z up)', () => {
    expect(eyeDirection('outboard', 'left', AXIS)).toEqual([0, 1, 0]);
    expect(eyeDirection('outboard', 'right', AXIS)).toEqual([0, -1, 0]);
    expect(eyeDirection('rear', 'left', AXIS)).toEqual([-1, 0, 0]);
    expect(eyeDirection('axis', 'left', [0, 2, 0])).toEqual([0, 1, 0]);
  });

  it('have the front up and the left on the left, seen from above', () => {
    const { right, up } = screenAxes(eyeDirection('top', 'left', AXIS));
    expect(up[0]).toBeCloseTo(1, 6);
    expect(right[1]).toBeCloseTo(-1, 6);
  });

  it('have the screen axes of a three.js camera', () => {
    for (let trial = 0; trial < 50; trial++) {
      const eye = normalize(point());
      const matrix = new Matrix4().lookAt(new Vector3(...eye), new Vector3(), new Vector3(0, 0, 1));
      const x = new Vector3().setFromMatrixColumn(matrix, 0);
      const { right, up } = screenAxes(eye);
      expect(dot(right, x.toArray() as Vec3), `trial ${trial} of seed 5`).toBeCloseTo(1, 9);
      expect(dot(up, cross(eye, right)), `trial ${trial} of seed 5`).toBeCloseTo(1, 9);
    }
  });
});

describe('square-on', () => {
  it('sees the line between two points at its true length', () => {
    for (let trial = 0; trial < 100; trial++) {
      const [a, b] = [point(), point()];
      const eye = squareOn(a, b, normalize(point()), () => 0);
      expect(length(eye), `trial ${trial}`).toBeCloseTo(1, 12);
      expect(dot(eye, normalize(sub(b, a))), `trial ${trial}`).toBeCloseTo(0, 12);
    }
  });

  it('is the square direction nearest to the preferred one', () => {
    const eye = squareOn([0, 0, 0], [0, 0, 4], [0.6, 0, 0.8], () => 0);
    expect(eye[0]).toBeCloseTo(1, 12);
  });

  it('turns away from directions in which the ends are hidden', () => {
    const eye = squareOn([0, 0, 0], [0, 0, 4], [1, 0, 0], ([x]) => (x > -0.5 ? 2 : 0));
    expect(eye[0]).toBeLessThanOrEqual(-0.5);
  });

  it('is the preferred direction for a line of zero length', () => {
    const eye = squareOn([1, 2, 3], [1, 2, 3], [0, 0.6, 0.8], () => 0);
    expect(dot(eye, [0, 0.6, 0.8])).toBeCloseTo(1, 12);
  });
});

describe('framing', () => {
  it('keeps every point within the given part of the window, and fills it in one direction', () => {
    for (let trial = 0; trial < 50; trial++) {
      const points = Array.from({ length: 9 }, point);
      const eye = normalize(point());
      const { target, pxPerMm } = frame(reachOfPoints(points), eye, 700, 500, 0.8);
      const { right, up } = screenAxes(eye);
      const reach = (axis: Vec3) =>
        Math.max(...points.map((p) => Math.abs(dot(sub(p, target), axis)))) * pxPerMm;
      expect(reach(right), `trial ${trial}`).toBeLessThanOrEqual(0.4 * 700 + 1e-6);
      expect(reach(up), `trial ${trial}`).toBeLessThanOrEqual(0.4 * 500 + 1e-6);
      expect(Math.max(reach(right) / 700, reach(up) / 500), `trial ${trial}`).toBeCloseTo(0.4, 9);
    }
  });

  it('is lowered on the screen by the given distance', () => {
    const eye = normalize(point());
    const { target, pxPerMm } = frame(reachOfPoints([point(), point()]), eye, 700, 500, 0.8);
    const moved = lowered({ target, pxPerMm }, eye, 60);
    // The old target is below the new middle.
    const { right, up } = screenAxes(eye);
    expect(dot(sub(target, moved.target), up) * pxPerMm).toBeCloseTo(-60, 6);
    expect(dot(sub(target, moved.target), right)).toBeCloseTo(0, 9);
  });
});
