import type { Facets } from './facets.ts';

/**
 * Vertices this near to a plane belong to it, mm: far above the rounding of coordinates (1e-4 at a metre), far below the
 * distance between a facet of a round surface and its neighbour's plane, eight chord errors.
 */
const FLAT_MM = 2e-3;
/** Facets with a greater fold are separate; those of a turned part of 300 mm built to 0.01 mm fold by about as much. */
const SAME_COS = Math.cos((2 * Math.PI) / 180);
/** A triangle thinner than this has no reliable normal, mm. */
const THIN_MM = 0.02;

/**
 * Groups connected triangles in one plane. Returns the region of each triangle, counted from 0, and the number of regions.
 * A region grows from its largest triangle; its plane is the mean of its triangles so far.
 */
export function flatRegions({ mesh, unit, weight, beside }: Facets): { of: Int32Array; count: number } {
  const { positions: p, triangles } = mesh;
  const of = new Int32Array(weight.length).fill(-1);
  const order = Array.from(weight, (_, t) => t).sort((s, t) => weight[t] - weight[s]);
  const queue: number[] = [];
  let count = 0;
  // Plane of the current region: sums of area, of area times normal, and of area times centroid.
  let [w, nx, ny, nz, cx, cy, cz] = [0, 0, 0, 0, 0, 0, 0];
  const take = (t: number) => {
    of[t] = count;
    queue.push(t);
    w += weight[t];
    nx += weight[t] * unit[3 * t];
    ny += weight[t] * unit[3 * t + 1];
    nz += weight[t] * unit[3 * t + 2];
    for (let k = 0; k < 3; k++) {
      const v = 3 * triangles[3 * t + k];
      cx += (weight[t] * p[v]) / 3;
      cy += (weight[t] * p[v + 1]) / 3;
      cz += (weight[t] * p[v + 2]) / 3;
    }
  };
  const fits = (t: number): boolean => {
    const n = Math.hypot(nx, ny, nz);
    if (!(n > 0)) return false;
    let longest = 0;
    for (let k = 0; k < 3; k++) {
      const v = 3 * triangles[3 * t + k];
      const u = 3 * triangles[3 * t + ((k + 1) % 3)];
      const off = (nx * (p[v] - cx / w) + ny * (p[v + 1] - cy / w) + nz * (p[v + 2] - cz / w)) / n;
      if (Math.abs(off) > FLAT_MM) return false;
      longest = Math.max(longest, Math.hypot(p[u] - p[v], p[u + 1] - p[v + 1], p[u + 2] - p[v + 2]));
    }
    if (weight[t] < THIN_MM * longest) return true;
    return (nx * unit[3 * t] + ny * unit[3 * t + 1] + nz * unit[3 * t + 2]) / n > SAME_COS;
  };
  for (const seed of order) {
    if (of[seed] >= 0) continue;
    [w, nx, ny, nz, cx, cy, cz] = [0, 0, 0, 0, 0, 0, 0];
    queue.length = 0;
    take(seed);
    for (let q = 0; q < queue.length; q++) {
      for (let k = 0; k < 3; k++) {
        const t = beside[3 * queue[q] + k];
        if (t >= 0 && of[t] < 0 && fits(t)) take(t);
      }
    }
    count += 1;
  }
  return { of, count };
}
