import { insideByOriented } from './inside.ts';
import { BOX } from './orientedBoxes.ts';
import { openNode, type Tree } from './tree.ts';
import { ROUNDING, triangleDistanceSq } from './triangleDistance.ts';

/** After this many nodes the hull counts as not proved outside. Halving a piece so close to the surface is faster. */
const MAX_NODES = 600;
const stack = new Int32Array(256);

/**
 * Whether the convex hull of `count` points (x y z each) is proved to be outside the closed surface of a tree with
 * oriented boxes. True only if every triangle is separated from the hull by more than rounding and a point of the
 * hull is outside. False can also mean that the proof took too long. Three points are tested as a triangle, more
 * points with the separating axes of the boxes. `axis`: a unit vector that probably separates; also tested.
 */
export function isHullOutside(
  tree: Tree,
  hull: Float64Array,
  count: number,
  axis: ArrayLike<number>,
): boolean {
  const { oriented, right, first, corners } = tree;
  const ux = axis[0];
  const uy = axis[1];
  const uz = axis[2];
  let reachMm = 0;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < 3 * count; k += 3) {
    const along = ux * hull[k] + uy * hull[k + 1] + uz * hull[k + 2];
    least = Math.min(least, along);
    most = Math.max(most, along);
    reachMm = Math.max(reachMm, Math.abs(hull[k]), Math.abs(hull[k + 1]), Math.abs(hull[k + 2]));
  }
  const slack = ROUNDING * (tree.reachMm + reachMm);
  let top = 1;
  stack[0] = 0;
  for (let visited = 0; top > 0; visited++) {
    if (visited === MAX_NODES) return false;
    const node = stack[--top];
    openNode(tree, node);
    const b = BOX * node;
    const centre = ux * oriented[b] + uy * oriented[b + 1] + uz * oriented[b + 2];
    let half = slack;
    for (let k = 0; k < 3; k++) {
      const a = b + 3 + 3 * k;
      half += oriented[b + 12 + k] * Math.abs(ux * oriented[a] + uy * oriented[a + 1] + uz * oriented[a + 2]);
    }
    if (least > centre + half || most < centre - half) continue;
    if (isBesideBox(oriented, b, hull, count, slack)) continue;
    if (right[node] !== 0) {
      stack[top++] = node + 1;
      stack[top++] = right[node];
    } else if (count !== 3 || !(triangleDistanceSq(hull, 0, corners, 9 * first[node]) > slack * slack)) {
      return false;
    }
  }
  return !insideByOriented(tree, hull[0], hull[1], hull[2]);
}

/** Whether an axis of the box at `boxes[b]` separates it from the hull. */
function isBesideBox(
  boxes: Float64Array,
  b: number,
  hull: Float64Array,
  count: number,
  slack: number,
): boolean {
  for (let axis = 0; axis < 3; axis++) {
    const a = b + 3 + 3 * axis;
    const ux = boxes[a];
    const uy = boxes[a + 1];
    const uz = boxes[a + 2];
    const centre = ux * boxes[b] + uy * boxes[b + 1] + uz * boxes[b + 2];
    const half = boxes[b + 12 + axis] + slack;
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < 3 * count; k += 3) {
      const along = ux * hull[k] + uy * hull[k + 1] + uz * hull[k + 2] - centre;
      if (along < least) least = along;
      if (along > most) most = along;
    }
    if (least > half || most < -half) return true;
  }
  return false;
}
