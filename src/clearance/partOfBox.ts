import type { Rigid } from '../math/rigid.ts';
import { BOX } from './orientedBoxes.ts';
import { openNode, type Tree } from './tree.ts';

/** Writes the oriented box of a node, moved by `t`, to `out`. */
export function movedBox(out: Float64Array, t: Rigid, boxes: Float64Array, node: number): void {
  const b = BOX * node;
  for (let v = 0; v < 12; v += 3) {
    const [x, y, z] = [boxes[b + v], boxes[b + v + 1], boxes[b + v + 2]];
    for (let r = 0; r < 3; r++)
      out[v + r] = t[4 * r] * x + t[4 * r + 1] * y + t[4 * r + 2] * z + (v === 0 ? t[4 * r + 3] : 0);
  }
  for (let k = 12; k < BOX; k++) out[k] = boxes[b + k];
}

/**
 * Shortens an oriented box along its own axes to the part that another box can reach; false if there is none. Loses
 * no common point, and no point within `slack` of one.
 */
export function shortenBox(box: Float64Array, other: Float64Array, slack: number): boolean {
  const dx = other[0] - box[0];
  const dy = other[1] - box[1];
  const dz = other[2] - box[2];
  const from = [0, 0, 0];
  for (let axis = 0; axis < 3; axis++) {
    const a = 3 + 3 * axis;
    const [x, y, z] = [box[a], box[a + 1], box[a + 2]];
    const middle = x * dx + y * dy + z * dz;
    let reach = slack;
    for (let k = 0; k < 3; k++) {
      const o = 3 + 3 * k;
      reach += other[12 + k] * Math.abs(x * other[o] + y * other[o + 1] + z * other[o + 2]);
    }
    const half = box[12 + axis];
    const low = Math.max(-half, middle - reach);
    const high = Math.min(half, middle + reach);
    if (low > high) return false;
    from[axis] = (low + high) / 2;
    box[12 + axis] = (high - low) / 2;
  }
  for (let k = 0; k < 3; k++) box[k] += from[0] * box[3 + k] + from[1] * box[6 + k] + from[2] * box[9 + k];
  box[15] = Math.hypot(box[12], box[13], box[14]);
  return true;
}

/** A box longer than twice its width is halved if a child's box is nearly as long. */
const ELONGATED = 2;
const AS_LONG = 0.75;

/**
 * Axis (0 to 2) along which to halve part of a node's box; -1 if the node's children are smaller pieces. `box` has
 * the axes of the node's own box, in the same order.
 */
export function axisToHalve(tree: Tree, node: number, box: Float64Array): number {
  const { oriented, right } = tree;
  const longest = box[12] >= box[13] && box[12] >= box[14] ? 0 : box[13] >= box[14] ? 1 : 2;
  const length = box[12 + longest];
  const width = Math.max(box[12 + ((longest + 1) % 3)], box[12 + ((longest + 2) % 3)]);
  if (!(width > 0) || length <= ELONGATED * width) return -1;
  const a = BOX * node + 3 + 3 * longest;
  for (const child of [node + 1, right[node]]) {
    openNode(tree, child);
    const c = BOX * child;
    let half = 0;
    for (let k = 0; k < 3; k++) {
      const o = c + 3 + 3 * k;
      half +=
        oriented[c + 12 + k] *
        Math.abs(
          oriented[a] * oriented[o] + oriented[a + 1] * oriented[o + 1] + oriented[a + 2] * oriented[o + 2],
        );
    }
    if (half > AS_LONG * length) return longest;
  }
  return -1;
}

/** Replaces a box with its half at the low (-1) or high (1) end of an axis. */
export function halveBox(box: Float64Array, axis: number, end: number): void {
  const half = box[12 + axis] / 2;
  for (let k = 0; k < 3; k++) box[k] += end * half * box[3 + 3 * axis + k];
  box[12 + axis] = half;
  box[15] = Math.hypot(box[12], box[13], box[14]);
}

/** Writes the eight corners of a box. */
export function cornersOfBox(hull: Float64Array, box: Float64Array): void {
  for (let corner = 0; corner < 8; corner++) {
    const u = corner & 1 ? box[12] : -box[12];
    const v = corner & 2 ? box[13] : -box[13];
    const w = corner & 4 ? box[14] : -box[14];
    for (let k = 0; k < 3; k++)
      hull[3 * corner + k] = box[k] + u * box[3 + k] + v * box[6 + k] + w * box[9 + k];
  }
}
