import type { Side } from '../../design/side.ts';
import type { Mesh } from '../../solids/solid.ts';

/** A mesh for a side: for the right one mirrored in the plane Y = 0, with the triangles reversed so that they face outward. */
export function sidedMesh({ positions, triangles }: Mesh, side: Side): Mesh {
  if (side === 'left') return { positions, triangles };
  return {
    positions: positions.map((value, i) => (i % 3 === 1 ? -value : value)),
    triangles: triangles.map((_, i) => triangles[i % 3 === 0 ? i : i % 3 === 1 ? i + 1 : i - 1]),
  };
}
