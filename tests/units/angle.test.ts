import { expect, it } from 'vitest';
import { degreesIn } from '../../src/units/angle.ts';

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
