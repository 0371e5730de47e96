import type { Mesh } from '../../src/solids/solid.ts';

/**
 * Faults of a mesh as the closed surface of a body, one sentence each; empty if there are none. Closed: each edge
 * belongs to exactly two triangles, which run along it in opposite directions. Outward: the signed volume is
 * positive.
 */
export function closedOutwardProblems(mesh: Mesh): string[] {
  const problems: string[] = [];
  const { positions, triangles } = mesh;
  const vertices = positions.length / 3;
  if (triangles.length === 0) problems.push('no triangles');
  for (const x of positions) if (!Number.isFinite(x)) problems.push(`a coordinate is ${x}`);

  const edges = new Map<number, number>();
  for (let t = 0; t < triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const from = triangles[t + k];
      const to = triangles[t + ((k + 1) % 3)];
      if (from >= vertices || to >= vertices) problems.push(`triangle ${t / 3} refers to a missing vertex`);
      if (from === to) problems.push(`triangle ${t / 3} has the vertex ${from} twice`);
      const directed = from * vertices + to;
      edges.set(directed, (edges.get(directed) ?? 0) + 1);
    }
  }
  for (const [directed, uses] of edges) {
    const from = Math.floor(directed / vertices);
    const to = directed % vertices;
    const back = edges.get(to * vertices + from) ?? 0;
    if (uses !== 1 || back !== 1)
      problems.push(`edge ${from}-${to}: ${uses} uses one way, ${back} the other`);
  }
  const volume = signedVolumeMm3(mesh);
  if (!(volume > 0)) problems.push(`signed volume ${volume} mm^3`);
  return problems.slice(0, 10);
}

/** Volume inside a closed mesh, positive if it faces outward: sum of a . (b x c) / 6, about its first vertex. */
export function signedVolumeMm3({ positions: p, triangles }: Mesh): number {
  const [ox, oy, oz] = p;
  let sixfold = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const [ax, ay, az] = [p[a] - ox, p[a + 1] - oy, p[a + 2] - oz];
    const [bx, by, bz] = [p[b] - ox, p[b + 1] - oy, p[b + 2] - oz];
    const [cx, cy, cz] = [p[c] - ox, p[c + 1] - oy, p[c + 2] - oz];
    sixfold += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  }
  return sixfold / 6;
}

/** Surface area of a mesh, mm^2. */
export function areaMm2({ positions: p, triangles }: Mesh): number {
  let twice = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    twice += Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
  }
  return twice / 2;
}

/** Least and greatest coordinates. */
export function bounds({ positions }: Mesh): { min: number[]; max: number[] } {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    min[i % 3] = Math.min(min[i % 3], positions[i]);
    max[i % 3] = Math.max(max[i % 3], positions[i]);
  }
  return { min, max };
}

/** Distance from a point to a mesh. Tries every triangle whose box is nearer than the best distance so far. */
export function distanceToMeshMm({ positions: p, triangles }: Mesh, point: readonly number[]): number {
  let best = Infinity;
  for (let t = 0; t < triangles.length; t += 3) {
    let toBox = 0;
    for (let k = 0; k < 3; k++) {
      const a = p[3 * triangles[t] + k];
      const b = p[3 * triangles[t + 1] + k];
      const c = p[3 * triangles[t + 2] + k];
      const off = Math.max(Math.min(a, b, c) - point[k], point[k] - Math.max(a, b, c), 0);
      toBox += off * off;
    }
    if (toBox < best) best = Math.min(best, distanceToTriangleSq(p, triangles, t, point));
  }
  return Math.sqrt(best);
}

/** Least squared distance to the triangle's plane (if the foot is inside the triangle) and to its three edges. */
function distanceToTriangleSq(
  p: Float64Array,
  triangles: Uint32Array,
  t: number,
  q: readonly number[],
): number {
  const corner = (k: number) => {
    const i = 3 * triangles[t + (k % 3)];
    return [p[i] - q[0], p[i + 1] - q[1], p[i + 2] - q[2]];
  };
  const corners = [corner(0), corner(1), corner(2)];
  const minus = (a: number[], b: number[]) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
  const times = (a: number[], b: number[]) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const crossed = (a: number[], b: number[]) => [
    a[1] * b[2] - a[2] * b[1],
    a[2] * b[0] - a[0] * b[2],
    a[0] * b[1] - a[1] * b[0],
  ];
  const normal = crossed(minus(corners[1], corners[0]), minus(corners[2], corners[0]));
  const normalSq = times(normal, normal);
  let inside = normalSq > 0;
  let best = Infinity;
  for (let k = 0; k < 3; k++) {
    const a = corners[k];
    const edge = minus(corners[(k + 1) % 3], a);
    if (times(crossed(normal, edge), a) > 0) inside = false;
    const edgeSq = times(edge, edge);
    const s = edgeSq > 0 ? Math.min(1, Math.max(0, -times(a, edge) / edgeSq)) : 0;
    const near = [a[0] + s * edge[0], a[1] + s * edge[1], a[2] + s * edge[2]];
    best = Math.min(best, times(near, near));
  }
  if (!inside) return best;
  const height = times(corners[0], normal);
  return Math.min(best, (height * height) / normalSq);
}
