import { sharedNumbers } from './sharedNumbers.ts';
import { putNormal } from './triangleNormal.ts';

/**
 * Count of numbers of a box in `orientedBoxes`: centre, three unit axes, the longest first, half extents, half
 * diagonal.
 */
export const BOX = 16;

/** What the oriented boxes of a tree are made of. `upright`: `boxes` of the tree. */
export interface BoxedTree {
  corners: Float64Array;
  upright: Float64Array;
  right: Int32Array;
  first: Int32Array;
  count: Int32Array;
}

/** The oriented boxes of all nodes: see `orientBox`. */
export function orientedBoxes(tree: BoxedTree): Float64Array {
  const nodes = tree.right.length;
  const boxes = sharedNumbers(BOX * nodes);
  const moments = surfaceMoments(tree);
  for (let node = 0; node < nodes; node++) orientBox(boxes, node, tree, moments, MOMENTS * node);
  return boxes;
}

/** Computes the box of one node: see `orientBox`. */
export function orientOne(boxes: Float64Array, node: number, tree: BoxedTree): void {
  const { corners, first, count } = tree;
  single.fill(0);
  for (let k = 0; k < 3; k++) origin[k] = corners[9 * first[node] + k];
  addTriangles(single, 0, corners, first[node], count[node]);
  orientBox(boxes, node, tree, single, 0);
}

/** Sets the box of a node to its box along the axes of the mesh. */
export function setUpright(boxes: Float64Array, node: number, { upright }: BoxedTree): void {
  alongMesh(boxes, BOX * node, upright, 6 * node);
  longestFirst(boxes, BOX * node);
}

/**
 * Writes the oriented box of a node. Of a leaf: the flat box along its triangle's longest edge. Of another node: the tighter
 * of the box along the axes of the mesh and the box along the principal axes of the node's surface, whose moments are at
 * `m`.
 */
function orientBox(
  boxes: Float64Array,
  node: number,
  { corners, upright, first, count }: BoxedTree,
  moments: Float64Array,
  m: number,
): void {
  const from = 9 * first[node];
  const at = BOX * node;
  if (count[node] === 1) triangleAxes(corners, from);
  else principalAxes(moments, m);
  fitBox(boxes, at, corners, from, from + 9 * count[node]);
  if (count[node] > 1 && faceArea(upright, 6 * node + 3) < faceArea(boxes, at + 12))
    alongMesh(boxes, at, upright, 6 * node);
  longestFirst(boxes, at);
}

const ALONG_MESH = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
/** Three unit axes, one after the other. */
const axes = new Float64Array(9);

/** The box along `axes` of the corners from `from` to `to`. */
function fitBox(out: Float64Array, at: number, corners: Float64Array, from: number, to: number): void {
  const ux = axes[0];
  const uy = axes[1];
  const uz = axes[2];
  const vx = axes[3];
  const vy = axes[4];
  const vz = axes[5];
  const wx = axes[6];
  const wy = axes[7];
  const wz = axes[8];
  let leastU = Number.POSITIVE_INFINITY;
  let leastV = Number.POSITIVE_INFINITY;
  let leastW = Number.POSITIVE_INFINITY;
  let mostU = Number.NEGATIVE_INFINITY;
  let mostV = Number.NEGATIVE_INFINITY;
  let mostW = Number.NEGATIVE_INFINITY;
  for (let i = from; i < to; i += 3) {
    const x = corners[i];
    const y = corners[i + 1];
    const z = corners[i + 2];
    const u = ux * x + uy * y + uz * z;
    const v = vx * x + vy * y + vz * z;
    const w = wx * x + wy * y + wz * z;
    leastU = Math.min(leastU, u);
    mostU = Math.max(mostU, u);
    leastV = Math.min(leastV, v);
    mostV = Math.max(mostV, v);
    leastW = Math.min(leastW, w);
    mostW = Math.max(mostW, w);
  }
  const u = (leastU + mostU) / 2;
  const v = (leastV + mostV) / 2;
  const w = (leastW + mostW) / 2;
  out[at] = u * ux + v * vx + w * wx;
  out[at + 1] = u * uy + v * vy + w * wy;
  out[at + 2] = u * uz + v * vz + w * wz;
  for (let k = 0; k < 9; k++) out[at + 3 + k] = axes[k];
  out[at + 12] = (mostU - leastU) / 2;
  out[at + 13] = (mostV - leastV) / 2;
  out[at + 14] = (mostW - leastW) / 2;
}

function alongMesh(out: Float64Array, at: number, upright: Float64Array, i: number): void {
  for (let k = 0; k < 3; k++) {
    out[at + k] = upright[i + k];
    out[at + 12 + k] = upright[i + 3 + k];
  }
  for (let k = 0; k < 9; k++) out[at + 3 + k] = ALONG_MESH[k];
}

/** Moves the longest axis to the first place and stores the half diagonal. */
function longestFirst(out: Float64Array, at: number): void {
  const x = out[at + 12];
  const y = out[at + 13];
  const z = out[at + 14];
  out[at + 15] = Math.sqrt(x * x + y * y + z * z);
  const longest = y > x && y >= z ? 1 : z > x ? 2 : 0;
  if (longest === 0) return;
  for (let k = 0; k < 3; k++) swap(out, at + 3 + k, at + 3 + 3 * longest + k);
  swap(out, at + 12, at + 12 + longest);
}

function swap(out: Float64Array, i: number, j: number): void {
  const x = out[i];
  out[i] = out[j];
  out[j] = x;
}

/**
 * An eighth of the surface area of a box with these half extents. The chance that it is near another box is
 * proportional to that area.
 */
const faceArea = (halves: Float64Array, at: number): number =>
  halves[at] * halves[at + 1] + halves[at + 1] * halves[at + 2] + halves[at + 2] * halves[at];

/** Count of moments of each node: area; area times x y z; area times xx yy zz xy yz zx, about `origin`. */
const MOMENTS = 10;
const single = new Float64Array(MOMENTS);
const origin = new Float64Array(3);

/** Moments of all nodes about the middle of the mesh. */
function surfaceMoments({ corners, right, first, count }: BoxedTree): Float64Array {
  const moments = new Float64Array(MOMENTS * right.length);
  origin.fill(0);
  for (let i = 0; i < corners.length; i++) origin[i % 3] += (3 * corners[i]) / corners.length;
  for (let node = right.length - 1; node >= 0; node--) {
    const at = MOMENTS * node;
    if (right[node] !== 0) {
      const left = MOMENTS * (node + 1);
      const other = MOMENTS * right[node];
      for (let k = 0; k < MOMENTS; k++) moments[at + k] = moments[left + k] + moments[other + k];
      continue;
    }
    addTriangles(moments, at, corners, first[node], count[node]);
  }
  return moments;
}

const triangle = new Float64Array(9);

/** Adds the moments of some triangles. */
function addTriangles(
  moments: Float64Array,
  at: number,
  corners: Float64Array,
  first: number,
  count: number,
): void {
  for (let i = 9 * first; i < 9 * (first + count); i += 9) {
    for (let k = 0; k < 9; k++) triangle[k] = corners[i + k] - origin[k % 3];
    addTriangle(moments, at, triangle);
  }
}

/**
 * Adds the integrals over a triangle of area A. Integral of x: A times the mean corner. Integral of xy: A / 12 times
 * (sum of the corners' xy + 9 times the mean corner's).
 */
function addTriangle(moments: Float64Array, at: number, p: Float64Array): void {
  const ux = p[3] - p[0];
  const uy = p[4] - p[1];
  const uz = p[5] - p[2];
  const vx = p[6] - p[0];
  const vy = p[7] - p[1];
  const vz = p[8] - p[2];
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const area = Math.sqrt(nx * nx + ny * ny + nz * nz) / 2;
  const x = (p[0] + p[3] + p[6]) / 3;
  const y = (p[1] + p[4] + p[7]) / 3;
  const z = (p[2] + p[5] + p[8]) / 3;
  const w = area / 12;
  moments[at] += area;
  moments[at + 1] += area * x;
  moments[at + 2] += area * y;
  moments[at + 3] += area * z;
  moments[at + 4] += w * (p[0] * p[0] + p[3] * p[3] + p[6] * p[6] + 9 * x * x);
  moments[at + 5] += w * (p[1] * p[1] + p[4] * p[4] + p[7] * p[7] + 9 * y * y);
  moments[at + 6] += w * (p[2] * p[2] + p[5] * p[5] + p[8] * p[8] + 9 * z * z);
  moments[at + 7] += w * (p[0] * p[1] + p[3] * p[4] + p[6] * p[7] + 9 * x * y);
  moments[at + 8] += w * (p[1] * p[2] + p[4] * p[5] + p[7] * p[8] + 9 * y * z);
  moments[at + 9] += w * (p[2] * p[0] + p[5] * p[3] + p[8] * p[6] + 9 * z * x);
}

/**
 * Sets the axes to a triangle's longest edge, its normal and their perpendicular. If the triangle has no area: the
 * axes of the mesh.
 */
function triangleAxes(t: Float64Array, i: number): void {
  let longest = -1;
  for (let k = 0; k < 9; k += 3) {
    const next = i + ((k + 3) % 9);
    const x = t[next] - t[i + k];
    const y = t[next + 1] - t[i + k + 1];
    const z = t[next + 2] - t[i + k + 2];
    const sq = x * x + y * y + z * z;
    if (sq <= longest) continue;
    longest = sq;
    axes[0] = x;
    axes[1] = y;
    axes[2] = z;
  }
  putNormal(axes, 6, t, i);
  squareUp();
}

/**
 * Makes the axes perpendicular unit vectors. The first keeps its direction, the third is perpendicular to it, the
 * second to both.
 */
function squareUp(): void {
  const length = Math.sqrt(axes[0] * axes[0] + axes[1] * axes[1] + axes[2] * axes[2]);
  for (let k = 0; k < 3; k++) axes[k] /= length;
  for (let pass = 0; pass < 2; pass++) {
    const along = axes[0] * axes[6] + axes[1] * axes[7] + axes[2] * axes[8];
    for (let k = 0; k < 3; k++) axes[6 + k] -= along * axes[k];
    const size = Math.sqrt(axes[6] * axes[6] + axes[7] * axes[7] + axes[8] * axes[8]);
    for (let k = 0; k < 3; k++) axes[6 + k] /= size;
  }
  axes[3] = axes[7] * axes[2] - axes[8] * axes[1];
  axes[4] = axes[8] * axes[0] - axes[6] * axes[2];
  axes[5] = axes[6] * axes[1] - axes[7] * axes[0];
  if (!Number.isFinite(axes[0] + axes[3] + axes[6])) axes.set(ALONG_MESH);
}

const m = new Float64Array(9);

/** Sets the axes to the eigenvectors of the covariance, by Jacobi rotations. */
function principalAxes(moments: Float64Array, at: number): void {
  const area = moments[at];
  axes.set(ALONG_MESH);
  if (!(area > 0)) return;
  const x = moments[at + 1] / area;
  const y = moments[at + 2] / area;
  const z = moments[at + 3] / area;
  m[0] = moments[at + 4] / area - x * x;
  m[4] = moments[at + 5] / area - y * y;
  m[8] = moments[at + 6] / area - z * z;
  m[1] = moments[at + 7] / area - x * y;
  m[5] = moments[at + 8] / area - y * z;
  m[2] = moments[at + 9] / area - z * x;
  const trace = Math.abs(m[0]) + Math.abs(m[4]) + Math.abs(m[8]);
  for (let sweep = 0; sweep < 8; sweep++) {
    if (Math.abs(m[1]) + Math.abs(m[2]) + Math.abs(m[5]) <= 1e-14 * trace) break;
    jacobiTurn(0, 1, 2);
    jacobiTurn(0, 2, 1);
    jacobiTurn(1, 2, 0);
  }
  squareUp();
}

/**
 * Rotates axes i and j (i < j) so that their covariance vanishes; `k` is the third. Uses only the entries of `m` with
 * i <= j.
 */
function jacobiTurn(i: number, j: number, k: number): void {
  const off = m[3 * i + j];
  if (off === 0) return;
  const theta = (m[4 * j] - m[4 * i]) / (2 * off);
  const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
  const c = 1 / Math.sqrt(t * t + 1);
  const s = t * c;
  m[4 * i] -= t * off;
  m[4 * j] += t * off;
  m[3 * i + j] = 0;
  const ik = i < k ? 3 * i + k : 3 * k + i;
  const jk = j < k ? 3 * j + k : 3 * k + j;
  const mi = m[ik];
  const mj = m[jk];
  m[ik] = c * mi - s * mj;
  m[jk] = s * mi + c * mj;
  for (let r = 0; r < 3; r++) {
    const a = axes[3 * i + r];
    const b = axes[3 * j + r];
    axes[3 * i + r] = c * a - s * b;
    axes[3 * j + r] = s * a + c * b;
  }
}
