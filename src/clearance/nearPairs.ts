import type { Rigid } from '../math/rigid.ts';
import type { Tree } from './tree.ts';
import { ROUNDING } from './triangleDistance.ts';

/** Rounding of coordinates of both surfaces in the frame of A, mm. */
export const roundingAt = (a: Tree, b: Tree, aFromB: Rigid): number =>
  ROUNDING * (a.reachMm + b.reachMm + Math.abs(aFromB[3]) + Math.abs(aFromB[7]) + Math.abs(aFromB[11]));

/**
 * Calls `visit` for every pair of triangles whose boxes are not proved to be further than `withinMm` apart.
 * Arguments: the offset of the triangle in A's corners, and the nine coordinates of the other in the frame of A. The
 * next call reuses them.
 */
export function forEachNearPair(
  a: Tree,
  b: Tree,
  aFromB: Rigid,
  withinMm: number,
  visit: (i: number, moved: Float64Array) => void,
): void {
  if (a.right.length === 0 || b.right.length === 0) return;
  const moved = new Float64Array(9);
  const stack = [0, 0];
  for (;;) {
    const nodeB = stack.pop();
    const nodeA = stack.pop();
    if (nodeA === undefined || nodeB === undefined) return;
    if (areApart(a.boxes, 6 * nodeA, b.boxes, 6 * nodeB, aFromB, withinMm)) continue;
    const [rightA, rightB] = [a.right[nodeA], b.right[nodeB]];
    if (rightA !== 0 && (rightB === 0 || a.radii[nodeA] >= b.radii[nodeB])) {
      stack.push(nodeA + 1, nodeB, rightA, nodeB);
    } else if (rightB !== 0) {
      stack.push(nodeA, nodeB + 1, nodeA, rightB);
    } else {
      const j = 9 * b.first[nodeB];
      for (let k = 0; k < 9; k += 3) {
        const x = b.corners[j + k];
        const y = b.corners[j + k + 1];
        const z = b.corners[j + k + 2];
        for (let r = 0; r < 3; r++)
          moved[k + r] =
            aFromB[4 * r] * x + aFromB[4 * r + 1] * y + aFromB[4 * r + 2] * z + aFromB[4 * r + 3];
      }
      visit(9 * a.first[nodeA], moved);
    }
  }
}

/** Whether the boxes are further apart than `withinMm` along an axis of either. */
function areApart(
  a: Float64Array,
  i: number,
  b: Float64Array,
  j: number,
  t: Rigid,
  withinMm: number,
): boolean {
  const dx = t[0] * b[j] + t[1] * b[j + 1] + t[2] * b[j + 2] + t[3] - a[i];
  const dy = t[4] * b[j] + t[5] * b[j + 1] + t[6] * b[j + 2] + t[7] - a[i + 1];
  const dz = t[8] * b[j] + t[9] * b[j + 1] + t[10] * b[j + 2] + t[11] - a[i + 2];
  for (let k = 0; k < 3; k++) {
    const r = 4 * k;
    const alongA = Math.abs(k === 0 ? dx : k === 1 ? dy : dz);
    const halfB = Math.abs(t[r]) * b[j + 3] + Math.abs(t[r + 1]) * b[j + 4] + Math.abs(t[r + 2]) * b[j + 5];
    if (alongA > a[i + 3 + k] + halfB + withinMm) return true;
    const alongB = Math.abs(t[k] * dx + t[4 + k] * dy + t[8 + k] * dz);
    const halfA = Math.abs(t[k]) * a[i + 3] + Math.abs(t[4 + k]) * a[i + 4] + Math.abs(t[8 + k]) * a[i + 5];
    if (alongB > b[j + 3 + k] + halfA + withinMm) return true;
  }
  return false;
}
