import type { Vec3 } from '../../../math/vec.ts';
import { faceNormals } from '../../../solids/faceNormals.ts';
import type { Mesh } from '../../../solids/solid.ts';
import { type SharedEdges, sharedEdges } from '../../workers/drawing/drawnMesh.ts';

/** The edges of a mesh with the unit normal of each face, x y z. */
export interface MeshEdges extends SharedEdges {
  normals: Float64Array;
}

export function edgesOf(mesh: Mesh): MeshEdges {
  const normals = faceNormals(mesh).unit;
  return { ...sharedEdges(mesh, normals), normals };
}

/**
 * Indices of the edges that outline a mesh viewed from the direction `eye` (toward the eye, in mesh coordinates): silhouette
 * edges, between a face toward the eye and a face away from it, and folds between two faces toward the eye.
 */
export function contourOf({ normals, faces, folded }: MeshEdges, eye: Vec3): Uint32Array {
  const facing = new Uint8Array(normals.length / 3);
  for (let f = 0; f < facing.length; f++)
    facing[f] =
      normals[3 * f] * eye[0] + normals[3 * f + 1] * eye[1] + normals[3 * f + 2] * eye[2] > 0 ? 1 : 0;
  const drawn: number[] = [];
  for (let edge = 0; edge < folded.length; edge++) {
    const both = facing[faces[2 * edge]] + facing[faces[2 * edge + 1]];
    if (both === 1 || (both === 2 && folded[edge] === 1)) drawn.push(edge);
  }
  return Uint32Array.from(drawn);
}
