import { faceNormals } from '../../../solids/faceNormals.ts';
import { type Around, edgesAround, FOLD_COS, facesByVertex } from '../../../solids/sharedEdges.ts';
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
