/** A triangle thinner than this share of its length has no reliable normal. */
const THIN = 1e-6;
/** Rounding of the planes through a triangle that is not thinner than `THIN`, at a coordinate of a metre, mm. */
const PLANE_MM = 1e-6;
/** Each of the 11 planes adds at most one corner. */
const MAX_CORNERS = 14;

/** The corners of the last result of `nearPart`, x y z each; the next call reuses the memory. */
export let clipped = new Float64Array(3 * MAX_CORNERS);
/** Buffer for the next cut; it swaps with `clipped` after each cut. */
let spare = new Float64Array(3 * MAX_CORNERS);
/** Distance of each corner of the part beyond the cutting plane. */
const over = new Float64Array(MAX_CORNERS);

/**
 * Clips the triangle at `s[i]` to the part that can be within `withinMm` of the triangle `t` (nine coordinates).
 * Writes the corners of the clipped polygon to `clipped` and returns their number; 0 if nothing is near. The clipping
 * planes are t's box, both sides of t's plane and t's edges, each moved outward by `withinMm`. The polygon reaches
 * further than `withinMm` only past sharp corners of t.
 */
export function nearPart(s: Float64Array, i: number, t: Float64Array, withinMm: number): number {
  for (let k = 0; k < 9; k++) clipped[k] = s[i + k];
  const slackMm = (limit: number): number => limit + withinMm + PLANE_MM;
  let count = 3;
  for (let k = 0; k < 3; k++) {
    const [x, y, z] = [k === 0 ? 1 : 0, k === 1 ? 1 : 0, k === 2 ? 1 : 0];
    count = cut(count, x, y, z, slackMm(Math.max(t[k], t[3 + k], t[6 + k])));
    count = cut(count, -x, -y, -z, slackMm(-Math.min(t[k], t[3 + k], t[6 + k])));
    if (count === 0) return 0;
  }
  const ux = t[3] - t[0];
  const uy = t[4] - t[1];
  const uz = t[5] - t[2];
  const vx = t[6] - t[0];
  const vy = t[7] - t[1];
  const vz = t[8] - t[2];
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const area = Math.sqrt(nx * nx + ny * ny + nz * nz);
  const wx = t[6] - t[3];
  const wy = t[7] - t[4];
  const wz = t[8] - t[5];
  const longest = Math.max(
    Math.sqrt(ux * ux + uy * uy + uz * uz),
    Math.sqrt(wx * wx + wy * wy + wz * wz),
    Math.sqrt(vx * vx + vy * vy + vz * vz),
  );
  if (!(area > THIN * longest * longest)) return count;
  const [x, y, z] = [nx * (1 / area), ny * (1 / area), nz * (1 / area)];
  const at = x * t[0] + y * t[1] + z * t[2];
  count = cut(count, x, y, z, slackMm(at));
  count = cut(count, -x, -y, -z, slackMm(-at));
  for (let c = 0; c < 9 && count > 0; c += 3) {
    const d = (c + 3) % 9;
    const ex = t[d] - t[c];
    const ey = t[d + 1] - t[c + 1];
    const ez = t[d + 2] - t[c + 2];
    const ox = ey * z - ez * y;
    const oy = ez * x - ex * z;
    const oz = ex * y - ey * x;
    const per = 1 / Math.sqrt(ox * ox + oy * oy + oz * oz);
    const [px, py, pz] = [ox * per, oy * per, oz * per];
    count = cut(count, px, py, pz, slackMm(px * t[c] + py * t[c + 1] + pz * t[c + 2]));
  }
  return count;
}

/**
 * Keeps the part of the first `count` corners of `clipped` that is no further than `limit` along a unit vector. Returns
 * the new number of corners.
 */
function cut(count: number, x: number, y: number, z: number, limit: number): number {
  let most = Number.NEGATIVE_INFINITY;
  for (let c = 0; c < count; c++) {
    over[c] = x * clipped[3 * c] + y * clipped[3 * c + 1] + z * clipped[3 * c + 2] - limit;
    if (over[c] > most) most = over[c];
  }
  if (most <= 0) return count;
  let kept = 0;
  for (let c = 0; c < count; c++) {
    const next = c + 1 === count ? 0 : c + 1;
    if (over[c] <= 0) {
      for (let k = 0; k < 3; k++) spare[3 * kept + k] = clipped[3 * c + k];
      kept++;
    }
    if (over[c] <= 0 === over[next] <= 0) continue;
    const w = over[c] / (over[c] - over[next]);
    for (let k = 0; k < 3; k++) {
      const from = clipped[3 * c + k];
      spare[3 * kept + k] = from + w * (clipped[3 * next + k] - from);
    }
    kept++;
  }
  [clipped, spare] = [spare, clipped];
  return kept;
}
