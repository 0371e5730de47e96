import { faceNormals } from '../../../solids/faceNormals.ts';
import type { Mesh } from '../../../solids/solid.ts';

/**
 * A mesh for the graphics card: points with normals, triangles of three points, and the lines where faces fold. A vertex
 * has one point for each of its normals.
 */
export interface DrawnMesh {
  positions: Float32Array;
  normals: Float32Array;
  triangles: Uint32Array;
  /** Fold lines, two points each. */
  edges: Float32Array;
  /** Bounding sphere: centre x, y, z, and radius. */
  sphere: readonly [number, number, number, number];
}

/** Faces that fold by less than this belong to one curved surface: facets of turned parts fold by less. */
const FOLD_DEG = 28;
const FOLD_COS = Math.cos((FOLD_DEG * Math.PI) / 180);

/** Faces around each vertex in one flat list, and the index of each vertex's first face in it. */
interface Around {
  first: Uint32Array;
  faces: Uint32Array;
}

function facesByVertex({ positions, triangles }: Mesh): Around {
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

/** Edges that two faces share. */
export interface SharedEdges {
  /** Two vertices for each edge. */
  vertices: Uint32Array;
  /** Two faces for each edge. */
  faces: Uint32Array;
  /** 1 if the faces fold at the edge, else 0. */
  folded: Uint8Array;
}

/** Shared edges of a mesh. `unit`: unit normal of each face, x, y, z. */
export const sharedEdges = (mesh: Mesh, unit: Float64Array): SharedEdges =>
  edgesAround(mesh, unit, facesByVertex(mesh));

function edgesAround({ triangles }: Mesh, unit: Float64Array, around: Around): SharedEdges {
  const { first, faces } = around;
  /** First face with the edge, if it comes before `face`. */
  const before = (face: number, from: number, to: number): number | undefined => {
    for (let k = first[from]; k < first[from + 1] && faces[k] < face; k++) {
      const t = 3 * faces[k];
      if (triangles[t] === to || triangles[t + 1] === to || triangles[t + 2] === to) return faces[k];
    }
    return undefined;
  };
  const found = { vertices: [] as number[], faces: [] as number[], folded: [] as number[] };
  for (let corner = 0; corner < triangles.length; corner++) {
    const face = Math.floor(corner / 3);
    const from = triangles[corner];
    const to = triangles[3 * face + ((corner + 1) % 3)];
    const other = before(face, from, to);
    if (other === undefined) continue;
    const [i, j] = [3 * face, 3 * other];
    const cos = unit[i] * unit[j] + unit[i + 1] * unit[j + 1] + unit[i + 2] * unit[j + 2];
    found.vertices.push(from, to);
    found.faces.push(face, other);
    found.folded.push(cos < FOLD_COS ? 1 : 0);
  }
  return {
    vertices: Uint32Array.from(found.vertices),
    faces: Uint32Array.from(found.faces),
    folded: Uint8Array.from(found.folded),
  };
}

function foldedEdges(mesh: Mesh, unit: Float64Array, around: Around): Float32Array {
  const { positions } = mesh;
  const { vertices, folded } = edgesAround(mesh, unit, around);
  const ends: number[] = [];
  folded.forEach((fold, edge) => {
    if (fold === 0) return;
    for (const v of [vertices[2 * edge], vertices[2 * edge + 1]])
      ends.push(positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]);
  });
  return Float32Array.from(ends);
}

/**
 * Converts a mesh for drawing: normals are smooth over curved surfaces and sharp at folds, and folds become lines. The
 * coordinates are those of the mesh.
 */
export function drawnMesh(mesh: Mesh): DrawnMesh {
  const { positions, triangles } = mesh;
  const { unit, weight } = faceNormals(mesh);
  const around = facesByVertex(mesh);
  const { first, faces } = around;
  const corners = triangles.length;
  const points = { positions: new Float32Array(3 * corners), normals: new Float32Array(3 * corners) };
  const drawn = new Uint32Array(corners);
  /** Last point of each vertex, and the previous point of each point: index + 1, or 0 for none. */
  const last = new Uint32Array(positions.length / 3);
  const earlier = new Uint32Array(corners);
  const normal = new Float32Array(3);
  let count = 0;
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
    normal[0] = x / l;
    normal[1] = y / l;
    normal[2] = z / l;
    let known = last[vertex];
    while (known > 0 && !sameAt(points.normals, 3 * (known - 1), normal)) known = earlier[known - 1];
    if (known === 0) {
      points.normals.set(normal, 3 * count);
      for (let k = 0; k < 3; k++) points.positions[3 * count + k] = positions[3 * vertex + k];
      earlier[count] = last[vertex];
      count += 1;
      last[vertex] = count;
      known = count;
    }
    drawn[corner] = known - 1;
  }
  return {
    positions: points.positions.slice(0, 3 * count),
    normals: points.normals.slice(0, 3 * count),
    triangles: drawn,
    edges: foldedEdges(mesh, unit, around),
    sphere: sphereRound(positions),
  };
}

/** Bounding sphere about the middle of the bounding box. */
function sphereRound(p: Float64Array): DrawnMesh['sphere'] {
  const middle = [0, 1, 2].map((k) => {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let i = k; i < p.length; i += 3) {
      low = Math.min(low, p[i]);
      high = Math.max(high, p[i]);
    }
    return (low + high) / 2;
  });
  const [x, y, z] = middle;
  let farthestSq = 0;
  for (let i = 0; i < p.length; i += 3)
    farthestSq = Math.max(farthestSq, (p[i] - x) ** 2 + (p[i + 1] - y) ** 2 + (p[i + 2] - z) ** 2);
  return [x, y, z, Math.sqrt(farthestSq)];
}

const sameAt = (values: Float32Array, at: number, [x, y, z]: Float32Array): boolean =>
  values[at] === x && values[at + 1] === y && values[at + 2] === z;
