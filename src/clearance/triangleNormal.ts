/**
 * Writes the normal of the triangle at `t[i]` (nine coordinates) to `out[at]` and the next two places. Its length is
 * twice the triangle's area.
 */
export function putNormal(out: Float64Array, at: number, t: Float64Array, i: number): void {
  const ux = t[i + 3] - t[i];
  const uy = t[i + 4] - t[i + 1];
  const uz = t[i + 5] - t[i + 2];
  const vx = t[i + 6] - t[i];
  const vy = t[i + 7] - t[i + 1];
  const vz = t[i + 8] - t[i + 2];
  out[at] = uy * vz - uz * vy;
  out[at + 1] = uz * vx - ux * vz;
  out[at + 2] = ux * vy - uy * vx;
}
