/** Result of the last call of `crossTriangles`: both ends of the segment, x y z each. */
export const crossing = new Float64Array(6);

/** Signed distances of the corners of a triangle from the plane of the other. */
const off = new Float64Array(3);
/** Intersection of each triangle with the plane of the other: two ends, later sorted along the common line. */
const shareS = new Float64Array(6);
const shareT = new Float64Array(6);

/**
 * Writes the common segment of the triangles at `s[i]` and `t[j]` (nine coordinates each) to `crossing`; false if
 * there is none. Each triangle meets the plane of the other in a segment, and both segments are on the line of both
 * planes (T. Möller, "A fast triangle-triangle intersection test", 1997). A point where an edge crosses a plane
 * depends only on that edge and that plane, so neighbours along the edge get the same point. A corner within `slack`
 * of a plane counts as in it. Coplanar triangles have no segment: where faces coincide, the outline of the common
 * area comes from the adjacent faces. A triangle without area has no segment.
 */
export function crossTriangles(
  s: Float64Array,
  i: number,
  t: Float64Array,
  j: number,
  slack: number,
): boolean {
  if (!shareWithPlane(s, i, t, j, slack, shareS) || !shareWithPlane(t, j, s, i, slack, shareT)) return false;
  const longer = spanSq(shareS, shareS) > spanSq(shareT, shareT) ? shareS : shareT;
  const size = Math.sqrt(spanSq(longer, longer));
  if (size === 0 && spanSq(shareS, shareT) > slack * slack) return false;
  const per = size > 0 ? 1 / size : 0;
  const x = (longer[3] - longer[0]) * per;
  const y = (longer[4] - longer[1]) * per;
  const z = (longer[5] - longer[2]) * per;
  const along = (share: Float64Array, k: number): number =>
    x * share[k] + y * share[k + 1] + z * share[k + 2];
  for (const share of [shareS, shareT]) if (along(share, 0) > along(share, 3)) swapEnds(share);
  const from = along(shareS, 0) >= along(shareT, 0) ? shareS : shareT;
  const to = along(shareS, 3) <= along(shareT, 3) ? shareS : shareT;
  if (along(from, 0) > along(to, 3) + slack) return false;
  for (let k = 0; k < 3; k++) {
    crossing[k] = from[k];
    crossing[3 + k] = to[3 + k];
  }
  return true;
}

/** Squared distance of the first end of one segment from the second end of another. */
function spanSq(a: Float64Array, b: Float64Array): number {
  const x = b[3] - a[0];
  const y = b[4] - a[1];
  const z = b[5] - a[2];
  return x * x + y * y + z * z;
}

function swapEnds(share: Float64Array): void {
  for (let k = 0; k < 3; k++) [share[k], share[3 + k]] = [share[3 + k], share[k]];
}

/**
 * Intersection of the triangle at `s[i]` with the plane of the triangle at `t[j]`; false if it is empty or the whole
 * triangle.
 */
function shareWithPlane(
  s: Float64Array,
  i: number,
  t: Float64Array,
  j: number,
  slack: number,
  share: Float64Array,
): boolean {
  const ux = t[j + 3] - t[j];
  const uy = t[j + 4] - t[j + 1];
  const uz = t[j + 5] - t[j + 2];
  const vx = t[j + 6] - t[j];
  const vy = t[j + 7] - t[j + 1];
  const vz = t[j + 8] - t[j + 2];
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const size = Math.sqrt(nx * nx + ny * ny + nz * nz);
  if (!(size > 0)) return false;
  let inPlane = 0;
  for (let c = 0; c < 3; c++) {
    const k = i + 3 * c;
    const d = ((s[k] - t[j]) * nx + (s[k + 1] - t[j + 1]) * ny + (s[k + 2] - t[j + 2]) * nz) / size;
    off[c] = Math.abs(d) <= slack ? 0 : d;
    if (off[c] === 0) inPlane++;
  }
  if (inPlane === 3) return false;
  let ends = 0;
  for (let c = 0; c < 3; c++) {
    if (off[c] === 0) for (let k = 0; k < 3; k++) share[3 * ends + k] = s[i + 3 * c + k];
    if (off[c] === 0) ends++;
  }
  for (let c = 0; c < 3 && ends < 2; c++) {
    const e = (c + 1) % 3;
    if (off[c] * off[e] >= 0) continue;
    const [below, above] = off[c] < 0 ? [c, e] : [e, c];
    const w = off[below] / (off[below] - off[above]);
    for (let k = 0; k < 3; k++) {
      const p = s[i + 3 * below + k];
      share[3 * ends + k] = p + w * (s[i + 3 * above + k] - p);
    }
    ends++;
  }
  if (ends === 1) for (let k = 0; k < 3; k++) share[3 + k] = share[k];
  return ends > 0;
}
