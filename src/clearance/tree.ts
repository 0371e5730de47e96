import { BufferAttribute, BufferGeometry } from 'three';
import { CENTER, MeshBVH, SAH } from 'three-mesh-bvh';
import type { Mesh } from '../solids/solid.ts';
import { BOX, type BoxedTree, orientBox, orientedBoxes, surfaceMoments } from './orientedBoxes.ts';
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
  /** Of each node: its oriented box, `BOX` numbers; empty until `withOrientedBoxes` or `withBoxesOnDemand`. */
  oriented: Float64Array;
  /** Of a tree with boxes on demand: what `orientNode` needs, and the nodes that have their box. */
  onDemand: { moments: Float64Array; isDone: Uint8Array } | undefined;
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
 * are not used. A mesh without triangles gives a tree without nodes. `fastBuild`: builds faster, but the tree is slower
 * to search.
 */
export function buildTree(mesh: Mesh, fastBuild = false): Tree {
  if (mesh.triangles.length === 0) return emptyTree();
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(mesh.positions), 3));
  const index = mesh.triangles.slice();
  geometry.setIndex(new BufferAttribute(index, 1));
  const strategy = fastBuild ? CENTER : SAH;
  const bvh = new MeshBVH(geometry, { strategy, targetLeafSize: 1, setBoundingBox: false });

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
function fitBoxes(corners: Float64Array, reachMm: number, first: Int32Array, depths: Int32Array): Tree {
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

const boxedTree = ({ corners, boxes, right, first, count }: Tree): BoxedTree => ({
  corners,
  upright: boxes,
  right,
  first,
  count,
});

/** The same tree with oriented boxes, which a search of one surface against another needs. */
export function withOrientedBoxes(tree: Tree): Tree {
  if (tree.oriented.length === 0) tree.oriented = orientedBoxes(boxedTree(tree));
  if (tree.onDemand !== undefined) {
    for (let node = 0; node < tree.right.length; node++) orientNode(tree, node);
    tree.onDemand = undefined;
  }
  return tree;
}

/**
 * The same tree with oriented boxes that `SurfaceSearch` computes as it meets a node. For a tree of one thread that is
 * searched a few times: most nodes are never met.
 */
export function withBoxesOnDemand(tree: Tree): Tree {
  const nodes = tree.right.length;
  if (tree.oriented.length > 0 || nodes === 0) return tree;
  tree.oriented = new Float64Array(BOX * nodes);
  tree.onDemand = { moments: surfaceMoments(boxedTree(tree)), isDone: new Uint8Array(nodes) };
  return tree;
}

/** Computes the oriented box of a node if it is on demand and not computed yet. */
export function orientNode(tree: Tree, node: number): void {
  const { onDemand } = tree;
  if (onDemand === undefined || onDemand.isDone[node] !== 0) return;
  onDemand.isDone[node] = 1;
  orientBox(tree.oriented, node, boxedTree(tree), onDemand.moments);
}
