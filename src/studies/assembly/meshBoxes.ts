import type { Mesh } from '../../solids/solid.ts';

/** Smallest x y z, then largest x y z. */
type Box = readonly number[];

const known = new WeakMap<Mesh, Box>();

function boxOf(mesh: Mesh): Box {
  const before = known.get(mesh);
  if (before !== undefined) return before;
  const { positions } = mesh;
  const box = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    const k = i % 3;
    box[k] = Math.min(box[k], positions[i]);
    box[3 + k] = Math.max(box[3 + k], positions[i]);
  }
  known.set(mesh, box);
  return box;
}

/** Whether the axis-aligned bounding boxes of two meshes are more than `byMm` apart along one of the axes. */
export function areBoxesApart(one: Mesh, other: Mesh, byMm: number): boolean {
  const [a, b] = [boxOf(one), boxOf(other)];
  return [0, 1, 2].some((k) => a[k] - b[3 + k] > byMm || b[k] - a[3 + k] > byMm);
}
