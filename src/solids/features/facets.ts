import { faceNormals } from '../faceNormals.ts';
import type { Mesh } from '../solid.ts';

/** A closed mesh with normals, areas and neighbours of its triangles. */
export interface Facets {
  mesh: Mesh;
  /** Unit normals, x y z each; 0 for a triangle without area. */
  unit: Float64Array;
  /** Twice the area of each triangle. */
  weight: Float64Array;
  /** At 3 t + k: the triangle across the edge of triangle t from its corner k to the next; -1 at an open edge. */
  beside: Int32Array;
}

export function facetsOf(mesh: Mesh): Facets {
  const { positions, triangles } = mesh;
  const vertices = positions.length / 3;
  const beside = new Int32Array(triangles.length).fill(-1);
  const open = new Map<number, number>();
  for (let i = 0; i < triangles.length; i++) {
    const from = triangles[i];
    const to = triangles[i - (i % 3) + ((i + 1) % 3)];
    const other = open.get(to * vertices + from);
    if (other === undefined) {
      open.set(from * vertices + to, i);
    } else {
      open.delete(to * vertices + from);
      beside[i] = Math.floor(other / 3);
      beside[other] = Math.floor(i / 3);
    }
  }
  return { mesh, ...faceNormals(mesh), beside };
}

/** The two ends of the edge at corner `i` of the triangles. */
export const endsOf = ({ triangles }: Mesh, i: number): [number, number] => [
  triangles[i],
  triangles[i - (i % 3) + ((i + 1) % 3)],
];

/** Cosine of the angle by which two triangles fold. */
export const foldCos = ({ unit }: Facets, s: number, t: number): number =>
  unit[3 * s] * unit[3 * t] + unit[3 * s + 1] * unit[3 * t + 1] + unit[3 * s + 2] * unit[3 * t + 2];
