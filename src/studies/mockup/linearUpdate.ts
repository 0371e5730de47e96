import { Matrix, solve } from 'ml-matrix';

/** Values with their ±, and measurements that depend on them by slopes. */
export interface LinearModel {
  /** The ± of each value. */
  plusMinus: readonly number[];
  /** Of each measurement: its slope with each value. */
  slopes: readonly (readonly number[])[];
  /** Of each measurement: measured minus predicted. */
  differences: readonly number[];
  /** The ± of each measurement, more than 0. */
  noise: readonly number[];
}

/**
 * The most probable change of each value: the least sum of (change / ±)² over the values and of (difference left / ±)² over
 * the measurements. This is the linear Bayesian update with independent normal errors in proportion to each ±:
 * x = P Hᵀ (H P Hᵀ + R)⁻¹ d. The changes have the units of the values. Throws a RangeError if a measurement has no ±.
 */
export function linearUpdate({ plusMinus, slopes, differences, noise }: LinearModel): number[] {
  if (noise.some((bar) => !(bar > 0))) throw new RangeError('a measurement has a ± that is not above 0');
  if (plusMinus.length === 0 || differences.length === 0) return plusMinus.map(() => 0);
  const h = new Matrix(slopes.map((row) => [...row]));
  const priorTimesH = Matrix.diag(plusMinus.map((bar) => bar * bar)).mmul(h.transpose());
  const spread = h.mmul(priorTimesH).add(Matrix.diag(noise.map((bar) => bar * bar)));
  const weights = solve(spread, Matrix.columnVector([...differences]));
  return priorTimesH.mmul(weights).to1DArray();
}
