import { BOX } from './orientedBoxes.ts';
import { openNode, type Tree } from './tree.ts';

/** Result of the last call of `pointTriangleDistanceSq` or `closestOnTree`. */
export const nearestHit = {
  /** x y z of the nearest point. */
  point: new Float64Array(3),
  /** Offset of its triangle in the tree's `corners`; -1 if nothing is within the limit. */
  triangle: -1,
};

/**
 * Squared distance of the origin from the segment from (x, y, z) along (u, v, w). Sets `segmentS` to the parameter of
 * the nearest point.
 */
let segmentS = 0;
function segmentSq(x: number, y: number, z: number, u: number, v: number, w: number): number {
  const uu = u * u + v * v + w * w;
  let s = -(x * u + y * v + z * w) / uu;
  s = s > 0 ? Math.min(s, 1) : 0;
  segmentS = s;
  const px = x + s * u;
  const py = y + s * v;
  const pz = z + s * w;
  return px * px + py * py + pz * pz;
}

/**
 * Squared distance of a point from the triangle `t[i..i+8]`. Writes the nearest point to `nearestHit.point`. The
 * point has convex weights, so it lies on the triangle however thin that is.
 */
export function pointTriangleDistanceSq(x: number, y: number, z: number, t: Float64Array, i: number): number {
  const ax = t[i] - x;
  const ay = t[i + 1] - y;
  const az = t[i + 2] - z;
  const bx = t[i + 3] - x;
  const by = t[i + 4] - y;
  const bz = t[i + 5] - z;
  const cx = t[i + 6] - x;
  const cy = t[i + 7] - y;
  const cz = t[i + 8] - z;
  const ux = bx - ax;
  const uy = by - ay;
  const uz = bz - az;
  const vx = cx - bx;
  const vy = cy - by;
  const vz = cz - bz;
  const wx = ax - cx;
  const wy = ay - cy;
  const wz = az - cz;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const pa = (by * cz - bz * cy) * nx + (bz * cx - bx * cz) * ny + (bx * cy - by * cx) * nz;
  const pb = (cy * az - cz * ay) * nx + (cz * ax - cx * az) * ny + (cx * ay - cy * ax) * nz;
  const pc = (ay * bz - az * by) * nx + (az * bx - ax * bz) * ny + (ax * by - ay * bx) * nz;
  const point = nearestHit.point;
  if (pa >= 0 && pb >= 0 && pc >= 0 && pa + pb + pc > 0) {
    const sum = pa + pb + pc;
    const dx = (pa * ax + pb * bx + pc * cx) / sum;
    const dy = (pa * ay + pb * by + pc * cy) / sum;
    const dz = (pa * az + pb * bz + pc * cz) / sum;
    point[0] = x + dx;
    point[1] = y + dy;
    point[2] = z + dz;
    return dx * dx + dy * dy + dz * dz;
  }
  let best = segmentSq(ax, ay, az, ux, uy, uz);
  point[0] = x + ax + segmentS * ux;
  point[1] = y + ay + segmentS * uy;
  point[2] = z + az + segmentS * uz;
  const second = segmentSq(bx, by, bz, vx, vy, vz);
  if (second < best) {
    best = second;
    point[0] = x + bx + segmentS * vx;
    point[1] = y + by + segmentS * vy;
    point[2] = z + bz + segmentS * vz;
  }
  const third = segmentSq(cx, cy, cz, wx, wy, wz);
  if (third < best) {
    best = third;
    point[0] = x + cx + segmentS * wx;
    point[1] = y + cy + segmentS * wy;
    point[2] = z + cz + segmentS * wz;
  }
  return best;
}

const stack = new Int32Array(256);
const stackSq = new Float64Array(256);
const kept = new Float64Array(3);

/**
 * Squared distance of a point from the nearest triangle of a tree if it is below `limitSq`; otherwise `limitSq`.
 * Writes the nearest point and its triangle to `nearestHit`.
 */
export const closestOnTree = (tree: Tree, x: number, y: number, z: number, limitSq: number): number =>
  closest(tree, tree.boxes, 6, boxDistanceSq, x, y, z, limitSq);

/**
 * Like `closestOnTree`, with the oriented boxes, which the tree must have (`withOrientedBoxes`). About ten times
 * faster for long triangles across the axes of the mesh. Among equally near triangles it may return a different one.
 */
export const closestByOriented = (tree: Tree, x: number, y: number, z: number, limitSq: number): number =>
  closest(tree, tree.oriented, BOX, orientedDistanceSq, x, y, z, limitSq);

type BoxDistanceSq = (boxes: Float64Array, i: number, x: number, y: number, z: number) => number;

/** `size`: count of numbers of each box in `boxes`. */
function closest(
  tree: Tree,
  boxes: Float64Array,
  size: number,
  distanceSq: BoxDistanceSq,
  x: number,
  y: number,
  z: number,
  limitSq: number,
): number {
  const { right, first, count, corners } = tree;
  let best = limitSq;
  let triangle = -1;
  let top = 0;
  if (right.length > 0) {
    stack[0] = 0;
    stackSq[0] = 0;
    top = 1;
  }
  while (top > 0) {
    top--;
    if (stackSq[top] >= best) continue;
    let node = stack[top];
    while (right[node] !== 0) {
      const left = node + 1;
      const other = right[node];
      openNode(tree, left);
      openNode(tree, other);
      const leftSq = distanceSq(boxes, size * left, x, y, z);
      const otherSq = distanceSq(boxes, size * other, x, y, z);
      const leftFirst = leftSq <= otherSq;
      const far = leftFirst ? otherSq : leftSq;
      if (far < best) {
        stack[top] = leftFirst ? other : left;
        stackSq[top] = far;
        top++;
      }
      node = leftFirst ? left : other;
      if ((leftFirst ? leftSq : otherSq) >= best) {
        node = -1;
        break;
      }
    }
    if (node < 0) continue;
    const end = 9 * (first[node] + count[node]);
    for (let i = 9 * first[node]; i < end; i += 9) {
      const d = pointTriangleDistanceSq(x, y, z, corners, i);
      if (d >= best) continue;
      best = d;
      triangle = i;
      kept.set(nearestHit.point);
    }
  }
  nearestHit.triangle = triangle;
  nearestHit.point.set(kept);
  return best;
}

function boxDistanceSq(boxes: Float64Array, i: number, x: number, y: number, z: number): number {
  const dx = Math.max(0, Math.abs(x - boxes[i]) - boxes[i + 3]);
  const dy = Math.max(0, Math.abs(y - boxes[i + 1]) - boxes[i + 4]);
  const dz = Math.max(0, Math.abs(z - boxes[i + 2]) - boxes[i + 5]);
  return dx * dx + dy * dy + dz * dz;
}

/** Rounding of a position relative to a box, as a share of the sum of all coordinates: 8 units in the last place. */
const BOX_ROUNDING = 8 * 2 ** -52;

/** Never above the true distance: the rounding is subtracted. */
function orientedDistanceSq(boxes: Float64Array, i: number, x: number, y: number, z: number): number {
  const dx = x - boxes[i];
  const dy = y - boxes[i + 1];
  const dz = z - boxes[i + 2];
  const sum = Math.abs(x) + Math.abs(y) + Math.abs(z) + Math.abs(dx) + Math.abs(dy) + Math.abs(dz);
  const slack = BOX_ROUNDING * sum;
  const alongU = Math.abs(dx * boxes[i + 3] + dy * boxes[i + 4] + dz * boxes[i + 5]);
  const alongV = Math.abs(dx * boxes[i + 6] + dy * boxes[i + 7] + dz * boxes[i + 8]);
  const alongW = Math.abs(dx * boxes[i + 9] + dy * boxes[i + 10] + dz * boxes[i + 11]);
  const u = Math.max(0, alongU - boxes[i + 12] - slack);
  const v = Math.max(0, alongV - boxes[i + 13] - slack);
  const w = Math.max(0, alongW - boxes[i + 14] - slack);
  return u * u + v * v + w * w;
}
