import type { Mesh } from '../solids/solid.ts';
import { BOX, type BoxedTree, orientedBoxes, orientOne, setUpright } from './orientedBoxes.ts';
import { boxedTree, fitBoxes, type OnDemand, type Tree } from './tree.ts';

/** Nodes below this depth are halved by number, as three-mesh-bvh's leaves are. */
const MOST_SPLITS = 40;

/** Nodes of more triangles have boxes along the axes of the mesh only: tighter ones save less than they take. */
const MOST_ORIENTED = 256;

/**
 * The tree of a mesh whose nodes get their boxes and children as a search meets them: see `openNode`. For a surface that is
 * searched a few times in one thread, where most nodes are never met. Complete, it is the tree that three-mesh-bvh builds
 * with splits at the middle.
 */
export function treeOnDemand(mesh: Mesh): Tree {
  const triangles = mesh.triangles.length / 3;
  const nodes = Math.max(0, 2 * triangles - 1);
  const tree: Tree = {
    corners: new Float64Array(9 * triangles),
    boxes: new Float64Array(6 * nodes),
    oriented: new Float64Array(BOX * nodes),
    onDemand: undefined,
    radii: new Float64Array(nodes),
    right: new Int32Array(nodes),
    first: new Int32Array(nodes),
    count: new Int32Array(nodes),
    depth: triangles > 0 ? MOST_SPLITS + Math.ceil(Math.log2(triangles)) + 1 : 0,
    reachMm: 0,
  };
  if (triangles > 0) tree.onDemand = new Splitter(tree, mesh);
  return tree;
}

class Splitter implements OnDemand {
  private readonly tree: Tree;
  private readonly boxed: BoxedTree;
  /** Centres of the triangles' boxes, in the order of `corners`. Float32, like those of three-mesh-bvh. */
  private readonly centres: Float32Array;
  private readonly isOpen: Uint8Array;
  private readonly depths: Int32Array;

  constructor(tree: Tree, mesh: Mesh) {
    this.tree = tree;
    this.boxed = boxedTree(tree);
    this.centres = new Float32Array(tree.corners.length / 3);
    this.isOpen = new Uint8Array(tree.right.length);
    this.depths = new Int32Array(tree.right.length);
    tree.count[0] = mesh.triangles.length / 3;
    this.fill(mesh);
    this.open(0);
  }

  private fill({ positions, triangles }: Mesh): void {
    const { tree, centres } = this;
    const { corners } = tree;
    let reachMm = 0;
    for (let i = 0; i < triangles.length; i += 3) {
      const a = 3 * triangles[i];
      const b = 3 * triangles[i + 1];
      const c = 3 * triangles[i + 2];
      for (let k = 0; k < 3; k++) {
        const x = positions[a + k];
        const y = positions[b + k];
        const z = positions[c + k];
        const at = 3 * i + k;
        corners[at] = x;
        corners[at + 3] = y;
        corners[at + 6] = z;
        const least = Math.fround(Math.min(x, y, z));
        const most = Math.fround(Math.max(x, y, z));
        centres[i + k] = least + (most - least) / 2;
        reachMm = Math.max(reachMm, Math.abs(x), Math.abs(y), Math.abs(z));
      }
    }
    tree.reachMm = reachMm;
  }

  open(node: number): void {
    if (this.isOpen[node] !== 0) return;
    this.isOpen[node] = 1;
    const { tree, boxed } = this;
    this.fitUpright(node);
    const orient = tree.count[node] <= MOST_ORIENTED ? orientOne : setUpright;
    orient(tree.oriented, node, boxed);
    this.split(node);
  }

  /** Sets the box of a node along the axes of the mesh. */
  private fitUpright(node: number): void {
    const { corners, boxes, radii, first, count } = this.tree;
    const end = 9 * (first[node] + count[node]);
    let squares = 0;
    for (let k = 0; k < 3; k++) {
      let least = Number.POSITIVE_INFINITY;
      let most = Number.NEGATIVE_INFINITY;
      for (let i = 9 * first[node] + k; i < end; i += 3) {
        const at = corners[i];
        if (at < least) least = at;
        if (at > most) most = at;
      }
      const centre = (least + most) / 2;
      const half = Math.max(most - centre, centre - least);
      boxes[6 * node + k] = centre;
      boxes[6 * node + 3 + k] = half;
      squares += half * half;
    }
    radii[node] = Math.sqrt(squares);
  }

  /** Sets the children of a node of several triangles. Depth first, a left child of n triangles has 2n - 1 nodes. */
  private split(node: number): void {
    const { right, first, count } = this.tree;
    if (count[node] === 1) return;
    const left = this.depths[node] < MOST_SPLITS ? this.partition(first[node], count[node]) : 0;
    const leftCount = left > 0 && left < count[node] ? left : count[node] >> 1;
    right[node] = node + 2 * leftCount;
    for (const [child, from, triangles] of [
      [node + 1, first[node], leftCount],
      [right[node], first[node] + leftCount, count[node] - leftCount],
    ]) {
      first[child] = from;
      count[child] = triangles;
      this.depths[child] = this.depths[node] + 1;
    }
  }

  /** Splits triangles at the middle of the longest side of the box of their centres. Returns how many come first. */
  private partition(from: number, triangles: number): number {
    const { centres } = this;
    let axis = -1;
    let middle = 0;
    let longest = Number.NEGATIVE_INFINITY;
    const end = 3 * (from + triangles);
    for (let k = 0; k < 3; k++) {
      let least = Number.POSITIVE_INFINITY;
      let most = Number.NEGATIVE_INFINITY;
      for (let i = 3 * from + k; i < end; i += 3) {
        const at = centres[i];
        if (at < least) least = at;
        if (at > most) most = at;
      }
      if (most - least <= longest) continue;
      longest = most - least;
      axis = k;
      middle = (least + most) / 2;
    }
    let left = from;
    let right = from + triangles - 1;
    for (;;) {
      while (left <= right && centres[3 * left + axis] < middle) left++;
      while (left <= right && centres[3 * right + axis] >= middle) right--;
      if (left >= right) return left - from;
      this.swap(left++, right--);
    }
  }

  private swap(one: number, other: number): void {
    const { centres, tree } = this;
    const { corners } = tree;
    for (let k = 0; k < 3; k++) {
      const centre = centres[3 * one + k];
      centres[3 * one + k] = centres[3 * other + k];
      centres[3 * other + k] = centre;
    }
    for (let k = 0; k < 9; k++) {
      const corner = corners[9 * one + k];
      corners[9 * one + k] = corners[9 * other + k];
      corners[9 * other + k] = corner;
    }
  }

  complete(): void {
    const { tree, depths } = this;
    const nodes = tree.right.length;
    for (let node = 0; node < nodes; node++) if (this.isOpen[node] === 0) this.split(node);
    const first = tree.first.map((triangle, node) => (tree.count[node] === 1 ? triangle : -1));
    Object.assign(tree, fitBoxes(tree.corners, tree.reachMm, first, depths));
    tree.oriented = orientedBoxes(boxedTree(tree));
  }
}
