import type { Mesh } from './solid.ts';

/** Faces that fold by less than this belong to one curved surface: facets of turned parts fold by less. */
const FOLD_DEG = 28;
export const FOLD_COS = Math.cos((FOLD_DEG * Math.PI) / 180);

/** Faces around each vertex in one flat list, and the index of each vertex's first face in it. */
export interface Around {
  first: Uint32Array;
  faces: Uint32Array;
}

/** Faces around each vertex of a mesh. */
export function facesByVertex({ positions, triangles }: Mesh): Around {
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

/** As `sharedEdges`, from known faces around each vertex. */
export function edgesAround({ triangles }: Mesh, unit: Float64Array, around: Around): SharedEdges {
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
