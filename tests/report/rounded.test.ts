import { expect, it } from 'vitest';
import { rounded, roundedText } from '../../src/report/rounded.ts';
import { mulberry32 } from '../oracles/random.ts';

it('writes the JSON of a rounded value', () => {
  const seed = 7;
  const random = mulberry32(seed);
  const values = [
    0, -0, 1, -1, 0.5, 1e-6, -1e-6, 4.9e-7, 0.1, 0.001, 0.000999, 123.000001, 999.9999999, 99999999.9999999,
  ];
  values.push(Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e8, -1e8, 1e21, 1e-9);
  for (let k = 0; k < 200_000; k++) {
    const size = 10 ** (16 * random() - 8);
    const value = (random() - 0.5) * size;
    values.push(value, Math.round(value * 1000) / 1000);
  }
  for (const value of values)
    if (roundedText(value) !== JSON.stringify(rounded(value)))
      expect(roundedText(value), `seed ${seed}, ${value}`).toBe(JSON.stringify(rounded(value)));
});
