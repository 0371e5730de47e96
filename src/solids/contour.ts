import type { Vec3 } from '../math/vec.ts';
import { faceNormals } from './faceNormals.ts';
import { type SharedEdges, sharedEdges } from './sharedEdges.ts';
import type { Mesh } from './solid.ts';

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

/**
 * Closed loops of vertex indices around what a closed mesh covers, viewed from the direction `eye` (toward the eye, in mesh
 * coordinates). At a point of the view the loops wind as many times as the mesh has faces toward the eye there, so filling
 * them by the nonzero rule gives the silhouette. Anticlockwise around the mesh.
 */
export function silhouetteOf({ normals, faces, vertices }: MeshEdges, eye: Vec3): number[][] {
  const isFacing = (f: number) =>
    normals[3 * f] * eye[0] + normals[3 * f + 1] * eye[1] + normals[3 * f + 2] * eye[2] > 0;
  /** Edges that leave each vertex, with the face toward the eye at their left. */
  const leaving = new Map<number, number[]>();
  for (let edge = 0; edge < faces.length / 2; edge++) {
    const facing = isFacing(faces[2 * edge]);
    if (facing === isFacing(faces[2 * edge + 1])) continue;
    const [one, other] = [vertices[2 * edge], vertices[2 * edge + 1]];
    const [from, to] = facing ? [one, other] : [other, one];
    leaving.set(from, [...(leaving.get(from) ?? []), to]);
  }
  const loops: number[][] = [];
  // As many edges arrive at a vertex as leave it, so that a walk ends only where it began.
  for (const [start, ends] of leaving)
    while (ends.length > 0) {
      const loop = [start];
      for (let at = ends.pop(); at !== undefined && at !== start; at = leaving.get(at)?.pop()) loop.push(at);
      loops.push(loop);
    }
  return loops;
}
