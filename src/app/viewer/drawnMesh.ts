import type { Mesh } from '../../solids/solid.ts';

/** What the graphics card is given of a mesh: three corners a triangle, and the lines where faces fold. */
export interface DrawnMesh {
  positions: Float32Array;
  normals: Float32Array;
  /** Two ends a line. */
  edges: Float32Array;
}

/** Faces that fold by less than this belong to one curved surface. Finer than a turned part's facets never are. */
const FOLD_DEG = 28;
const FOLD_COS = Math.cos((FOLD_DEG * Math.PI) / 180);

/** Unit normals of the faces, x y z each, and twice their areas; a face of no area has normal 0. */
function faceNormals({ positions: p, triangles }: Mesh): { unit: Float64Array; weight: Float64Array } {
  const count = triangles.length / 3;
  const unit = new Float64Array(3 * count);
  const weight = new Float64Array(count);
  for (let f = 0; f < count; f++) {
    const a = 3 * triangles[3 * f];
    const b = 3 * triangles[3 * f + 1];
    const c = 3 * triangles[3 * f + 2];
    const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const l = Math.hypot(x, y, z);
    weight[f] = l;
    if (l > 0) unit.set([x / l, y / l, z / l], 3 * f);
  }
  return { unit, weight };
}

/** Faces round each vertex, as a flat list with the place where each vertex's faces begin. */
function facesByVertex({ positions, triangles }: Mesh): { first: Uint32Array; faces: Uint32Array } {
  const first = new Uint32Array(positions.length / 3 + 1);
  for (const v of triangles) first[v + 1] += 1;
  for (let v = 1; v < first.length; v++) first[v] += first[v - 1];
  const next = first.slice();
  const faces = new Uint32Array(triangles.length);
  triangles.forEach((v, corner) => {
    faces[next[v]++] = Math.floor(corner / 3);
  });
  return { first, faces };
}

function foldedEdges(mesh: Mesh, unit: Float64Array): Float32Array {
  const { positions, triangles } = mesh;
  const vertices = positions.length / 3;
  const seen = new Map<number, number>();
  const ends: number[] = [];
  for (let corner = 0; corner < triangles.length; corner++) {
    const face = Math.floor(corner / 3);
    const from = triangles[corner];
    const to = triangles[3 * face + ((corner + 1) % 3)];
    const key = Math.min(from, to) * vertices + Math.max(from, to);
    const other = seen.get(key);
    if (other === undefined) {
      seen.set(key, face);
      continue;
    }
    const [i, j] = [3 * face, 3 * other];
    const cos = unit[i] * unit[j] + unit[i + 1] * unit[j + 1] + unit[i + 2] * unit[j + 2];
    if (cos < FOLD_COS) {
      for (const v of [from, to]) ends.push(positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]);
    }
  }
  return Float32Array.from(ends);
}

/**
 * Makes a mesh ready to draw: normals smooth over curved surfaces and sharp at folds, and the folds as lines.
 * Coordinates stay those of the mesh.
 */
export function drawnMesh(mesh: Mesh): DrawnMesh {
  const { positions, triangles } = mesh;
  const { unit, weight } = faceNormals(mesh);
  const { first, faces } = facesByVertex(mesh);
  const corners = triangles.length;
  const drawn = { positions: new Float32Array(3 * corners), normals: new Float32Array(3 * corners) };
  for (let corner = 0; corner < corners; corner++) {
    const own = 3 * Math.floor(corner / 3);
    const vertex = triangles[corner];
    let [x, y, z] = [0, 0, 0];
    for (let k = first[vertex]; k < first[vertex + 1]; k++) {
      const face = faces[k];
      const i = 3 * face;
      if (unit[own] * unit[i] + unit[own + 1] * unit[i + 1] + unit[own + 2] * unit[i + 2] < FOLD_COS)
        continue;
      x += weight[face] * unit[i];
      y += weight[face] * unit[i + 1];
      z += weight[face] * unit[i + 2];
    }
    const l = Math.hypot(x, y, z) || 1;
    drawn.normals.set([x / l, y / l, z / l], 3 * corner);
    for (let k = 0; k < 3; k++) drawn.positions[3 * corner + k] = positions[3 * vertex + k];
  }
  return { ...drawn, edges: foldedEdges(mesh, unit) };
}
