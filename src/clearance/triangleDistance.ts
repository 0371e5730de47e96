/**
 * Distance of two triangles in Float64. The nearest points are on two edges, or on a corner and a face. The triangles
 * cross if an edge of one pierces the face of the other. Every candidate is a pair of points on the two triangles (on
 * faces by convex weights, on edges by clamped parameters). So a needle or a triangle without area can only lose a
 * candidate that another feature also gives. It never gives a distance that is too small.
 */

/** Distances below this share of the largest coordinate are rounding: 256 units in the last place. */
export const ROUNDING = 256 * 2 ** -52;

/** Result of the last call of `triangleDistanceSq`. */
export const trianglePair = {
  /** Nearest points: x y z on the first triangle, x y z on the second. */
  points: new Float64Array(6),
  /** Whether an edge of one pierces the other's face by more than rounding. */
  crossing: false,
};

/**
 * Rounding of a corner's position in a slab, as a share of coordinates times the corner's distance: 8 units in the
 * last place.
 */
const SLAB_ROUNDING = 8 * 2 ** -52;
/** A corner may reach into the slab by this share of its width: a hundredth of the required accuracy. */
const SLAB_SLACK = 1e-11;

/** Nearest points of the last two segments and their squared distance. */
const onEdges = new Float64Array(7);

/**
 * Nearest points of the segments from `a[p]` to `a[p1]` and from `b[q]` to `b[q1]`. The parameter on the first line
 * comes from the cross product, which keeps its digits for nearly parallel edges; the textbook |u|^2 |v|^2 - (u.v)^2
 * loses them. Arguments and results are array offsets, not numbers. Numbers would go to the heap, half a kilobyte per
 * pair of triangles, and a sweep would take 1.05 times as long.
 */
function nearestOnSegments(
  a: Float64Array,
  p: number,
  p1: number,
  b: Float64Array,
  q: number,
  q1: number,
): void {
  const px = a[p];
  const py = a[p + 1];
  const pz = a[p + 2];
  const ux = a[p1] - px;
  const uy = a[p1 + 1] - py;
  const uz = a[p1 + 2] - pz;
  const qx = b[q];
  const qy = b[q + 1];
  const qz = b[q + 2];
  const vx = b[q1] - qx;
  const vy = b[q1 + 1] - qy;
  const vz = b[q1 + 2] - qz;
  const wx = qx - px;
  const wy = qy - py;
  const wz = qz - pz;
  const vv = vx * vx + vy * vy + vz * vz;
  const uv = ux * vx + uy * vy + uz * vz;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const nn = nx * nx + ny * ny + nz * nz;
  let s = 0;
  if (nn > 0) {
    s = ((wy * vz - wz * vy) * nx + (wz * vx - wx * vz) * ny + (wx * vy - wy * vx) * nz) / nn;
    s = s > 0 ? Math.min(s, 1) : 0;
  }
  let t = (s * uv - (vx * wx + vy * wy + vz * wz)) / vv;
  if (!(t > 0 && t < 1)) {
    t = t >= 1 ? 1 : 0;
    const uu = ux * ux + uy * uy + uz * uz;
    s = (ux * wx + uy * wy + uz * wz + t * uv) / uu;
    s = s > 0 ? Math.min(s, 1) : 0;
  }
  const ax = px + s * ux;
  const ay = py + s * uy;
  const az = pz + s * uz;
  const bx = qx + t * vx;
  const by = qy + t * vy;
  const bz = qz + t * vz;
  onEdges[0] = ax;
  onEdges[1] = ay;
  onEdges[2] = az;
  onEdges[3] = bx;
  onEdges[4] = by;
  onEdges[5] = bz;
  const dx = bx - ax;
  const dy = by - ay;
  const dz = bz - az;
  onEdges[6] = dx * dx + dy * dy + dz * dz;
}

/**
 * Nearest points of the edges. If both triangles are outside the slab between two nearest edge points, nothing can be
 * nearer: sets `proved`.
 */
let proved = false;
function edgesDistanceSq(a: Float64Array, i: number, b: Float64Array, j: number): number {
  const out = trianglePair.points;
  let best = Number.POSITIVE_INFINITY;
  proved = false;
  for (let e = 0; e < 9; e += 3) {
    const p = i + e;
    const p1 = e === 6 ? i : p + 3;
    const p2 = e === 0 ? i + 6 : p - 3;
    for (let f = 0; f < 9; f += 3) {
      const q = j + f;
      const q1 = f === 6 ? j : q + 3;
      const q2 = f === 0 ? j + 6 : q - 3;
      nearestOnSegments(a, p, p1, b, q, q1);
      const d = onEdges[6];
      if (d >= best) continue;
      best = d;
      const ax = onEdges[0];
      const ay = onEdges[1];
      const az = onEdges[2];
      const bx = onEdges[3];
      const by = onEdges[4];
      const bz = onEdges[5];
      out[0] = ax;
      out[1] = ay;
      out[2] = az;
      out[3] = bx;
      out[4] = by;
      out[5] = bz;
      const dx = bx - ax;
      const dy = by - ay;
      const dz = bz - az;
      const ex = a[p2] - ax;
      const ey = a[p2 + 1] - ay;
      const ez = a[p2 + 2] - az;
      const fx = b[q2] - bx;
      const fy = b[q2 + 1] - by;
      const fz = b[q2 + 2] - bz;
      const over = Math.max(ex * dx + ey * dy + ez * dz, -(fx * dx + fy * dy + fz * dz));
      const rounding =
        SLAB_ROUNDING *
        (Math.abs(ax) + Math.abs(ay) + Math.abs(az) + Math.abs(bx) + Math.abs(by) + Math.abs(bz)) *
        (Math.abs(ex) + Math.abs(ey) + Math.abs(ez) + Math.abs(fx) + Math.abs(fy) + Math.abs(fz));
      if (over + rounding <= SLAB_SLACK * d) {
        proved = true;
        return best;
      }
    }
  }
  return best;
}

/**
 * Squared distance of the triangles `a[i..i+8]` and `b[j..j+8]` (three corners, x y z each); 0 if they meet. Writes
 * the nearest points, and whether the triangles cross, to `trianglePair`.
 */
export function triangleDistanceSq(a: Float64Array, i: number, b: Float64Array, j: number): number {
  trianglePair.crossing = false;
  let best = edgesDistanceSq(a, i, b, j);
  if (proved) return best;
  best = cornersToFace(a, i, b, j, best, 0);
  best = cornersToFace(b, j, a, i, best, 3);
  best = edgesThroughFace(a, i, b, j, best, 0);
  return trianglePair.crossing ? best : edgesThroughFace(b, j, a, i, best, 3);
}

/** Normal of the last triangle passed to `setNormal`; not of unit length. */
let nx = 0;
let ny = 0;
let nz = 0;
function setNormal(t: Float64Array, i: number): void {
  const ux = t[i + 3] - t[i];
  const uy = t[i + 4] - t[i + 1];
  const uz = t[i + 5] - t[i + 2];
  const vx = t[i + 6] - t[i];
  const vy = t[i + 7] - t[i + 1];
  const vz = t[i + 8] - t[i + 2];
  nx = uy * vz - uz * vy;
  ny = uz * vx - ux * vz;
  nz = ux * vy - uy * vx;
}

/** Corners of `c` against the face `f`, whose point is at `facePlace` (0 or 3) in `trianglePair.points`. */
function cornersToFace(
  f: Float64Array,
  i: number,
  c: Float64Array,
  j: number,
  best: number,
  facePlace: number,
): number {
  setNormal(f, i);
  if (nx === 0 && ny === 0 && nz === 0) return best;
  const out = trianglePair.points;
  const cornerPlace = 3 - facePlace;
  let least = best;
  for (let k = j; k < j + 9; k += 3) {
    const x = c[k];
    const y = c[k + 1];
    const z = c[k + 2];
    const ax = f[i] - x;
    const ay = f[i + 1] - y;
    const az = f[i + 2] - z;
    const bx = f[i + 3] - x;
    const by = f[i + 4] - y;
    const bz = f[i + 5] - z;
    const cx = f[i + 6] - x;
    const cy = f[i + 7] - y;
    const cz = f[i + 8] - z;
    const wa = (by * cz - bz * cy) * nx + (bz * cx - bx * cz) * ny + (bx * cy - by * cx) * nz;
    if (wa < 0) continue;
    const wb = (cy * az - cz * ay) * nx + (cz * ax - cx * az) * ny + (cx * ay - cy * ax) * nz;
    if (wb < 0) continue;
    const wc = (ay * bz - az * by) * nx + (az * bx - ax * bz) * ny + (ax * by - ay * bx) * nz;
    if (wc < 0) continue;
    const sum = wa + wb + wc;
    if (!(sum > 0)) continue;
    const dx = (wa * ax + wb * bx + wc * cx) / sum;
    const dy = (wa * ay + wb * by + wc * cy) / sum;
    const dz = (wa * az + wb * bz + wc * cz) / sum;
    const d = dx * dx + dy * dy + dz * dz;
    if (d >= least) continue;
    least = d;
    out[facePlace] = x + dx;
    out[facePlace + 1] = y + dy;
    out[facePlace + 2] = z + dz;
    out[cornerPlace] = x;
    out[cornerPlace + 1] = y;
    out[cornerPlace + 2] = z;
  }
  return least;
}

const size = (x: number, y: number, z: number): number => Math.sqrt(x * x + y * y + z * z);

/** Largest coordinate of nine. */
function reach(t: Float64Array, i: number): number {
  let most = 0;
  for (let k = i; k < i + 9; k++) most = Math.max(most, Math.abs(t[k]));
  return most;
}

/**
 * Edges of `e` (at `edgePlace` in `trianglePair.points`) against the face `f`. If an edge pierces the face, both
 * nearest points are there. Sets `trianglePair.crossing` and returns 0 only if both ends of the edge and all three
 * sides of the face are further away than rounding.
 */
function edgesThroughFace(
  e: Float64Array,
  i: number,
  f: Float64Array,
  j: number,
  best: number,
  edgePlace: number,
): number {
  setNormal(f, j);
  const facePlace = 3 - edgePlace;
  const out = trianglePair.points;
  let least = best;
  for (let k = 0; k < 9; k += 3) {
    const p = i + k;
    const q = k === 6 ? i : p + 3;
    const x = e[p];
    const y = e[p + 1];
    const z = e[p + 2];
    const ux = e[q] - x;
    const uy = e[q + 1] - y;
    const uz = e[q + 2] - z;
    const ax = f[j] - x;
    const ay = f[j + 1] - y;
    const az = f[j + 2] - z;
    const from = -(nx * ax + ny * ay + nz * az);
    const to = nx * (e[q] - f[j]) + ny * (e[q + 1] - f[j + 1]) + nz * (e[q + 2] - f[j + 2]);
    if ((from > 0 && to > 0) || (from < 0 && to < 0)) continue;
    const bx = f[j + 3] - x;
    const by = f[j + 4] - y;
    const bz = f[j + 5] - z;
    const cx = f[j + 6] - x;
    const cy = f[j + 7] - y;
    const cz = f[j + 8] - z;
    const wa = (by * cz - bz * cy) * ux + (bz * cx - bx * cz) * uy + (bx * cy - by * cx) * uz;
    const wb = (cy * az - cz * ay) * ux + (cz * ax - cx * az) * uy + (cx * ay - cy * ax) * uz;
    const wc = (ay * bz - az * by) * ux + (az * bx - ax * bz) * uy + (ax * by - ay * bx) * uz;
    if (!((wa >= 0 && wb >= 0 && wc >= 0) || (wa <= 0 && wb <= 0 && wc <= 0))) continue;
    const sum = wa + wb + wc;
    if (sum === 0) continue;
    const dx = (wa * ax + wb * bx + wc * cx) / sum;
    const dy = (wa * ay + wb * by + wc * cy) / sum;
    const dz = (wa * az + wb * bz + wc * cz) / sum;
    const uu = ux * ux + uy * uy + uz * uz;
    const s = Math.max(0, Math.min(1, (dx * ux + dy * uy + dz * uz) / uu));
    const gx = dx - s * ux;
    const gy = dy - s * uy;
    const gz = dz - s * uz;
    const d = gx * gx + gy * gy + gz * gz;
    const slack = ROUNDING * Math.max(reach(e, i), reach(f, j));
    const edge = slack * Math.sqrt(uu);
    const crosses =
      Math.min(Math.abs(from), Math.abs(to)) > slack * size(nx, ny, nz) &&
      Math.abs(wa) > edge * size(cx - bx, cy - by, cz - bz) &&
      Math.abs(wb) > edge * size(ax - cx, ay - cy, az - cz) &&
      Math.abs(wc) > edge * size(bx - ax, by - ay, bz - az) &&
      d <= slack * slack;
    if (!crosses && d >= least) continue;
    out[facePlace] = x + dx;
    out[facePlace + 1] = y + dy;
    out[facePlace + 2] = z + dz;
    out[edgePlace] = crosses ? out[facePlace] : x + s * ux;
    out[edgePlace + 1] = crosses ? out[facePlace + 1] : y + s * uy;
    out[edgePlace + 2] = crosses ? out[facePlace + 2] : z + s * uz;
    if (crosses) {
      trianglePair.crossing = true;
      return 0;
    }
    least = d;
  }
  return least;
}
