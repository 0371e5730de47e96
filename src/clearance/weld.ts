import type { Mesh } from '../solids/solid.ts';

/**
 * The mesh with vertices of equal coordinates merged, so that neighbours share vertex indices. Drops unused vertices.
 * Throws an Error that names the invalid triangle or vertex.
 */
export function weld(mesh: Mesh): Mesh {
  const { positions: p, triangles } = mesh;
  const vertices = p.length / 3;
  if (!Number.isInteger(vertices) || triangles.length % 3 !== 0)
    throw new Error(
      `the mesh has ${p.length} coordinates and ${triangles.length} corners; both must be multiples of 3`,
    );
  const used = new Uint8Array(vertices);
  for (let i = 0; i < triangles.length; i++) {
    const v = triangles[i];
    if (v >= vertices)
      throw new Error(
        `triangle ${Math.floor(i / 3)} refers to vertex ${v}, but the mesh has ${vertices} vertices`,
      );
    used[v] = 1;
  }
  for (let v = 0; v < vertices; v++) {
    if (used[v] && !Number.isFinite(p[3 * v] + p[3 * v + 1] + p[3 * v + 2]))
      throw new Error(
        `vertex ${v} of the mesh is at ${p[3 * v]}, ${p[3 * v + 1]}, ${p[3 * v + 2]}; coordinates must be finite`,
      );
  }
  const order = Uint32Array.from(used.keys())
    .filter((v) => used[v] === 1)
    .sort(
      (v, w) => p[3 * v] - p[3 * w] || p[3 * v + 1] - p[3 * w + 1] || p[3 * v + 2] - p[3 * w + 2] || v - w,
    );
  const weldedOf = new Uint32Array(vertices);
  const positions = new Float64Array(3 * order.length);
  let count = 0;
  for (const v of order) {
    const last = 3 * (count - 1);
    const same =
      count > 0 &&
      positions[last] === p[3 * v] &&
      positions[last + 1] === p[3 * v + 1] &&
      positions[last + 2] === p[3 * v + 2];
    if (!same) {
      positions.set(p.subarray(3 * v, 3 * v + 3), 3 * count);
      count++;
    }
    weldedOf[v] = count - 1;
  }
  return { positions: positions.slice(0, 3 * count), triangles: triangles.map((v) => weldedOf[v]) };
}

/**
 * Whether a welded mesh is the closed surface of a body. Each edge must run equally often in both directions; the
 * winding number about every point is then an integer.
 */
export function isClosed({ positions, triangles }: Mesh): boolean {
  // The edges of each vertex to later ones: `next` links those of one vertex; `balance` counts both directions.
  const lastOf = new Int32Array(positions.length / 3).fill(-1);
  const edges = triangles.length;
  const to = new Uint32Array(edges);
  const next = new Int32Array(edges);
  const balance = new Int32Array(edges);
  let count = 0;
  for (let i = 0; i < triangles.length; i++) {
    const v = triangles[i];
    const w = triangles[i % 3 === 2 ? i - 2 : i + 1];
    if (v === w) continue;
    const from = Math.min(v, w);
    const end = Math.max(v, w);
    let edge = lastOf[from];
    while (edge >= 0 && to[edge] !== end) edge = next[edge];
    if (edge < 0) {
      edge = count++;
      to[edge] = end;
      next[edge] = lastOf[from];
      lastOf[from] = edge;
    }
    balance[edge] += v < w ? 1 : -1;
  }
  return triangles.length > 0 && balance.every((uses) => uses === 0);
}
