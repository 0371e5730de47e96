/**
 * Sine and cosine from sums and products alone. Those of the language differ by a bit from one version of an engine to
 * the next (Node 20 and Chromium 147 disagree), and the same corner is to give the same bytes wherever it is swept.
 * Within 2 units in the last place for angles up to a thousand turns.
 */

/** Half of pi in three parts; a whole number below 2^20 times either of the first two is exact. */
const HALF_PI = [1.5707963267341256, 6.077100506303966e-11, 2.0222662487959506e-21] as const;

/** The series of sine and cosine by powers of the square, as far as they count up to an eighth of a turn. */
const series = (first: number): number[] => {
  const terms = [1];
  for (let n = first; n < first + 18; n += 2) terms.push(-terms[terms.length - 1] / (n * (n + 1)));
  return terms;
};
const SINE = series(2);
const COSINE = series(1);

function sum(terms: readonly number[], square: number): number {
  let value = 0;
  for (let i = terms.length - 1; i > 0; i--) value = value * square + terms[i];
  return value * square;
}

/** Sine of an angle that is `quarters` quarter turns more than `angleRad`, which is not below 0. */
function sineOf(angleRad: number, quarters: number): number {
  const near = Math.round(angleRad / HALF_PI[0]);
  const rest = angleRad - near * HALF_PI[0] - near * HALF_PI[1] - near * HALF_PI[2];
  const quarter = (near + quarters) % 4;
  const square = rest * rest;
  const value = quarter % 2 === 0 ? rest + rest * sum(SINE, square) : 1 + sum(COSINE, square);
  return quarter < 2 ? value : -value;
}

export function sin(angleRad: number): number {
  if (angleRad === 0) return angleRad;
  return angleRad < 0 ? -sineOf(-angleRad, 0) : sineOf(angleRad, 0);
}

export const cos = (angleRad: number): number => sineOf(Math.abs(angleRad), 1);
