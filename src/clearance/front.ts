import type { Rigid } from '../math/rigid.ts';
import { BOX } from './orientedBoxes.ts';
import type { Tree } from './tree.ts';

/** Count of numbers of a direction in `directions`: x y z, and the extent of the node of A along it. */
const DIRECTION = 4;

/**
 * Pairs of nodes that a search skipped and pairs of triangles that it measured. Together they cover every pair of
 * triangles of the two surfaces. Each has a unit direction, in the frame of A, that separates the two, and a key: the
 * last known gap plus the path of the bodies up to then. The gap shrinks by at most the motion of the bodies. So it
 * is still at least the key minus the current path.
 */
export class Front {
  count = 0;
  /** Node of A, node of B. */
  nodes = new Int32Array(2 * 8);
  directions = new Float64Array(DIRECTION * 8);
  keys = new Float64Array(8);
  private leastKey = Number.POSITIVE_INFINITY;

  clear(): void {
    this.count = 0;
    this.leastKey = Number.POSITIVE_INFINITY;
  }

  /** Adds a pair of nodes separated along a direction. `key`: their gap plus the path of the bodies so far. */
  add(a: Tree, nodeA: number, nodeB: number, direction: Float64Array, key: number): void {
    if (this.count === this.keys.length) this.grow();
    const { nodes, directions, keys, count } = this;
    const x = direction[0];
    const y = direction[1];
    const z = direction[2];
    nodes[2 * count] = nodeA;
    nodes[2 * count + 1] = nodeB;
    directions[DIRECTION * count] = x;
    directions[DIRECTION * count + 1] = y;
    directions[DIRECTION * count + 2] = z;
    directions[DIRECTION * count + 3] = reachAlong(a, nodeA, x, y, z);
    keys[count] = key;
    this.leastKey = Math.min(this.leastKey, key);
    this.count++;
  }

  /**
   * Keeps the pairs that are still separated by more than `threshold`. Writes the others to `reopened` (node of A,
   * node of B) and returns their number.
   */
  filter(b: Tree, t: Rigid, path: number, threshold: number): number {
    const { nodes, directions, keys, count } = this;
    if (this.leastKey > threshold + path) return 0;
    let leastKey = Number.POSITIVE_INFINITY;
    let kept = 0;
    let reopenedEnd = 0;
    if (reopened.length < 2 * count) reopened = new Int32Array(2 * keys.length);
    for (let e = 0; e < count; e++) {
      if (keys[e] <= threshold + path) {
        const d = DIRECTION * e;
        const x = directions[d];
        const y = directions[d + 1];
        const z = directions[d + 2];
        const gap =
          x * t[3] +
          y * t[7] +
          z * t[11] -
          directions[d + 3] -
          reachAlong(
            b,
            nodes[2 * e + 1],
            -(x * t[0] + y * t[4] + z * t[8]),
            -(x * t[1] + y * t[5] + z * t[9]),
            -(x * t[2] + y * t[6] + z * t[10]),
          );
        if (gap <= threshold) {
          reopened[reopenedEnd] = nodes[2 * e];
          reopened[reopenedEnd + 1] = nodes[2 * e + 1];
          reopenedEnd += 2;
          continue;
        }
        keys[e] = gap + path;
      }
      leastKey = Math.min(leastKey, keys[e]);
      if (kept < e) this.move(e, kept);
      kept++;
    }
    this.count = kept;
    this.leastKey = leastKey;
    return reopenedEnd / 2;
  }

  private move(from: number, to: number): void {
    const { nodes, directions, keys } = this;
    nodes[2 * to] = nodes[2 * from];
    nodes[2 * to + 1] = nodes[2 * from + 1];
    for (let k = 0; k < DIRECTION; k++) directions[DIRECTION * to + k] = directions[DIRECTION * from + k];
    keys[to] = keys[from];
  }

  private grow(): void {
    const { nodes, directions, keys } = this;
    this.nodes = new Int32Array(2 * nodes.length);
    this.nodes.set(nodes);
    this.directions = new Float64Array(2 * directions.length);
    this.directions.set(directions);
    this.keys = new Float64Array(2 * keys.length);
    this.keys.set(keys);
  }
}

/** Pairs of nodes that `filter` did not keep: node of A, node of B. All fronts share it. */
export let reopened = new Int32Array(0);

/** Extent of a node's triangle or box along a direction. */
function reachAlong(
  { right, first, corners, oriented }: Tree,
  node: number,
  x: number,
  y: number,
  z: number,
): number {
  if (right[node] === 0) {
    const i = 9 * first[node];
    return Math.max(
      x * corners[i] + y * corners[i + 1] + z * corners[i + 2],
      x * corners[i + 3] + y * corners[i + 4] + z * corners[i + 5],
      x * corners[i + 6] + y * corners[i + 7] + z * corners[i + 8],
    );
  }
  const i = BOX * node;
  return (
    x * oriented[i] +
    y * oriented[i + 1] +
    z * oriented[i + 2] +
    oriented[i + 12] * Math.abs(x * oriented[i + 3] + y * oriented[i + 4] + z * oriented[i + 5]) +
    oriented[i + 13] * Math.abs(x * oriented[i + 6] + y * oriented[i + 7] + z * oriented[i + 8]) +
    oriented[i + 14] * Math.abs(x * oriented[i + 9] + y * oriented[i + 10] + z * oriented[i + 11])
  );
}
