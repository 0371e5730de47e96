import { expect, it } from 'vitest';
import { degreesIn, parseAngle } from '../../src/units/angle.ts';

it.each([
  ['0.5', 0.5],
  ['0.5°', 0.5],
  [' 0,5 deg ', 0.5],
  ['.25 degrees', 0.25],
  ['−1 °', -1],
  ['+2', 2],
])('reads the angle "%s"', (typed, degrees) => {
  expect(degreesIn(typed)).toBe(degrees);
});

it.each(['', '°', 'half', '1/2', '1 mm', '0.5 rad', '1.', '1e3'])('rejects "%s"', (typed) => {
  expect(degreesIn(typed)).toBeNaN();
});

it.each([
  ['12.5° ±0.5°', 12.5, 0.5],
  ['−0,75 +/- 0,25 deg', -0.75, 0.25],
  ['3', 3, undefined],
])('reads the angle and the ± of "%s"', (typed, degrees, plusMinusDeg) => {
  expect(parseAngle(typed)).toEqual({ degrees, plusMinusDeg });
});

it.each(['12 ±', '±0.5', '12 ±-0.5', '12 ±0', '12 ±1 ±2', '12 ±1 mm', 'half'])(
  'rejects "%s" as an angle with its ±',
  (typed) => {
    expect(parseAngle(typed)).toBeUndefined();
  },
);
