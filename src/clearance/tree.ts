import { BufferAttribute, BufferGeometry } from 'three';
import { MeshBVH, SAH } from 'three-mesh-bvh';
import type { Mesh } from '../solids/solid.ts';
import { type BoxedTree, orientedBoxes } from './orientedBoxes.ts';
import { sharedNumbers } from './sharedNumbers.ts';

/**
 * Triangles of a surface in a tree of boxes, in typed arrays. Nodes are in depth-first order: the left child of node
 * n is n + 1. Each leaf has one triangle, because bounding two boxes costs a tenth of measuring two triangles. The
 * boxes are fitted in Float64 to the Float64 triangles.
 */
export interface Tree {
  /** Nine coordinates per triangle, mm, in the order of the leaves. */
  corners: Float64Array;
  /** Of each node: centre x y z, half extent x y z. */
  boxes: Float64Array;
  /** Of each node: its oriented box, `BOX` numbers; empty until `withOrientedBoxes`, except on demand. */
  oriented: Float64Array;
  /** Set while nodes get boxes and children on demand: see `treeOnDemand`. */
  onDemand: OnDemand | undefined;
  /** Of each node: half the diagonal of its box. */
  radii: Float64Array;
  /** Of each node: its right child; 0 for a leaf. */
  right: Int32Array;
  /** Of each node: its first triangle and its number of triangles; 1 for a leaf. */
  first: Int32Array;
  count: Int32Array;
  /** Number of nodes on the longest path from the root to a leaf. */
  depth: number;
  /** Largest coordinate, mm: the scale of rounding. */
  reachMm: number;
}

/** What is left to do for a tree on demand. */
export interface OnDemand {
  /** Sets the boxes and the children of a node, if it has none yet. Its parent must have them. */
  open(node: number): void;
  /** Makes it a tree like any other. Nodes and triangles that are set keep their places. */
  complete(): void;
}

const emptyTree = (): Tree => ({
  corners: new Float64Array(0),
  boxes: new Float64Array(0),
  oriented: new Float64Array(0),
  onDemand: undefined,
  radii: new Float64Array(0),
  right: new Int32Array(0),
  first: new Int32Array(0),
  count: new Int32Array(0),
  depth: 0,
  reachMm: 0,
});

/**
 * Builds the tree of a mesh. three-mesh-bvh groups the triangles (direct mode, on a Float32 copy); its Float32 boxes
 * are not used. A mesh without triangles gives a tree without nodes.
 */
export function buildTree(mesh: Mesh): Tree {
  if (mesh.triangles.length === 0) return emptyTree();
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(mesh.positions), 3));
  const index = mesh.triangles.slice();
  geometry.setIndex(new BufferAttribute(index, 1));
  const bvh = new MeshBVH(geometry, { strategy: SAH, targetLeafSize: 1, setBoundingBox: false });

  const most = (2 * index.length) / 3;
  const first = new Int32Array(most);
  const depths = new Int32Array(most);
  let nodes = 0;
  /** Adds nodes in depth-first order. Splits leaves with more than one triangle further. */
  const note = (depth: number, offset: number, triangles: number): void => {
    first[nodes] = triangles === 1 ? offset : -1;
    depths[nodes] = depth;
    nodes++;
    if (triangles <= 1) return;
    const half = triangles >> 1;
    note(depth + 1, offset, half);
    note(depth + 1, offset + half, triangles - half);
  };
  bvh.traverse((depth, isLeaf, _box, offset, triangles) => note(depth, offset, isLeaf ? triangles : 0));

  const corners = sharedNumbers(3 * index.length);
  let reachMm = 0;
  for (let i = 0; i < index.length; i++) {
    for (let k = 0; k < 3; k++) {
      const x = mesh.positions[3 * index[i] + k];
      corners[3 * i + k] = x;
      reachMm = Math.max(reachMm, Math.abs(x));
    }
  }
  return fitBoxes(corners, reachMm, first.slice(0, nodes), depths);
}

/** Computes right children, triangle ranges of inner nodes, and boxes, from the last node to the first. */
export function fitBoxes(
  corners: Float64Array,
  reachMm: number,
  first: Int32Array,
  depths: Int32Array,
): Tree {
  const nodes = first.length;
  const right = new Int32Array(nodes);
  const count = new Int32Array(nodes).fill(1);
  const boxes = sharedNumbers(6 * nodes);
  const radii = new Float64Array(nodes);
  /** The last visited node at each depth, going backward: the right sibling of a left child. */
  const lastAtDepth: number[] = [];
  const sibling = new Int32Array(nodes);
  let depth = 0;
  for (let node = nodes - 1; node >= 0; node--) {
    const d = depths[node];
    depth = Math.max(depth, d + 1);
    if (first[node] < 0) {
      const left = node + 1;
      right[node] = sibling[left];
      first[node] = first[left];
      count[node] = count[left] + count[right[node]];
      for (let k = 6 * node, l = 6 * left, r = 6 * right[node]; k < 6 * node + 3; k++, l++, r++) {
        boxes[k] = Math.min(boxes[l], boxes[r]);
        boxes[k + 3] = Math.max(boxes[l + 3], boxes[r + 3]);
      }
    } else {
      for (let k = 6 * node, i = 9 * first[node]; k < 6 * node + 3; k++, i++) {
        boxes[k] = Math.min(corners[i], corners[i + 3], corners[i + 6]);
        boxes[k + 3] = Math.max(corners[i], corners[i + 3], corners[i + 6]);
      }
    }
    sibling[node] = lastAtDepth[d] ?? 0;
    lastAtDepth[d] = node;
  }
  // Until here, boxes are least x y z, greatest x y z.
  for (let node = 0; node < nodes; node++) {
    let squares = 0;
    for (let k = 6 * node; k < 6 * node + 3; k++) {
      const centre = (boxes[k] + boxes[k + 3]) / 2;
      const half = Math.max(boxes[k + 3] - centre, centre - boxes[k]);
      boxes[k] = centre;
      boxes[k + 3] = half;
      squares += half * half;
    }
    radii[node] = Math.sqrt(squares);
  }
  const oriented = new Float64Array(0);
  return { corners, boxes, oriented, onDemand: undefined, radii, right, first, count, depth, reachMm };
}

export const boxedTree = ({ corners, boxes, right, first, count }: Tree): BoxedTree => ({
  corners,
  upright: boxes,
  right,
  first,
  count,
});

/** The same tree, complete and with oriented boxes, which a search of one surface against another needs. */
export function withOrientedBoxes(tree: Tree): Tree {
  if (completed(tree).oriented.length === 0) tree.oriented = orientedBoxes(boxedTree(tree));
  return tree;
}

/** Gives a tree the oriented boxes that a search reads. A tree on demand gets them while it is searched. */
export function prepareForSearch(tree: Tree): void {
  if (tree.onDemand === undefined) withOrientedBoxes(tree);
}

/** The same tree, with the boxes and children of all nodes. */
export function completed(tree: Tree): Tree {
  tree.onDemand?.complete();
  return tree;
}

/** Sets the boxes and the children of a node of a tree on demand: before a search reads them. */
export function openNode({ onDemand }: Tree, node: number): void {
  if (onDemand !== undefined) onDemand.open(node);
}

/** A triangle of a node, the same one whatever else of a tree on demand is open. */
export function middleTriangle(tree: Tree, node: number): number {
  const { right, first, count } = tree;
  const wanted = first[node] + (count[node] >> 1);
  let at = node;
  openNode(tree, at);
  while (right[at] !== 0) {
    at = wanted < first[right[at]] ? at + 1 : right[at];
    openNode(tree, at);
  }
  return first[at];
}
