export interface Inverse3 {
  /** The inverse times a vector. */
  times(x: number, y: number, z: number): [number, number, number];
}

/**
 * The inverse of `sum (row row^T)` over rows of three numbers; undefined if the matrix is singular to within rounding.
 */
export function inverseOfSquares(rows: readonly (readonly [number, number, number])[]): Inverse3 | undefined {
  let [a, b, c, d, e, f] = [0, 0, 0, 0, 0, 0];
  for (const [x, y, z] of rows) {
    a += x * x;
    b += x * y;
    c += x * z;
    d += y * y;
    e += y * z;
    f += z * z;
  }
  const [A, B, C] = [d * f - e * e, c * e - b * f, b * e - c * d];
  const [D, E, F] = [a * f - c * c, b * c - a * e, a * d - b * b];
  const det = a * A + b * B + c * C;
  if (!(det > 1e-12 * a * d * f)) return undefined;
  return {
    times: (x, y, z) => [
      (A * x + B * y + C * z) / det,
      (B * x + D * y + E * z) / det,
      (C * x + E * y + F * z) / det,
    ],
  };
}
