import { BOX } from './orientedBoxes.ts';
import { openNode, type Tree } from './tree.ts';
import { ROUNDING } from './triangleDistance.ts';

/**
 * Directions of the rays: fixed, so that results are repeatable, and along nothing that a part is likely to be drawn
 * along.
 */
const DIRECTIONS: readonly (readonly [number, number, number])[] = [
  [0.8017837257, 0.5345224838, 0.2672612419],
  [-0.3713906764, 0.742781353, 0.557086014],
  [0.2357022604, -0.4714045208, 0.8498365856],
  [-0.6804138174, -0.5443310539, 0.4907006186],
  [0.132453236, 0.211925177, -0.968268537],
];

/** Result for a ray that passes too near an edge to decide on which side. */
const UNSURE = Number.NaN;
/** Widens boxes to allow for rounding of the ray's products. */
const WIDER = 1 + 2 ** -40;
const stack = new Int32Array(256);

/**
 * Whether a point is inside the closed surface of a tree, i.e. the winding number is not 0. Counts signed crossings
 * along a ray. If a ray passes an edge within rounding, the next direction is used. If all fail, uses solid angles
 * (van Oosterom and Strackee 1983), which need no ray. For a point on the surface the result may be either.
 */
export const insideTree = (tree: Tree, x: number, y: number, z: number): boolean =>
  isInside(tree, passesUpright, x, y, z);

/**
 * Like `insideTree`, with the oriented boxes, which the tree must have. For a point on the surface the result may
 * differ.
 */
export const insideByOriented = (tree: Tree, x: number, y: number, z: number): boolean =>
  isInside(tree, passesOriented, x, y, z);

type RayPasses = (
  tree: Tree,
  node: number,
  x: number,
  y: number,
  z: number,
  ux: number,
  uy: number,
  uz: number,
) => boolean;

function isInside(tree: Tree, passes: RayPasses, x: number, y: number, z: number): boolean {
  const { boxes, right } = tree;
  if (
    right.length === 0 ||
    Math.abs(x - boxes[0]) > boxes[3] ||
    Math.abs(y - boxes[1]) > boxes[4] ||
    Math.abs(z - boxes[2]) > boxes[5]
  )
    return false;
  for (const [ux, uy, uz] of DIRECTIONS) {
    const winding = windingOfRay(tree, passes, x, y, z, ux, uy, uz);
    if (!Number.isNaN(winding)) return winding !== 0;
  }
  return Math.abs(windingOfAngles(tree, x, y, z)) > 0.5;
}

/** Signed crossings of a ray with the surface; NaN if it passes too near an edge. */
function windingOfRay(
  tree: Tree,
  passes: RayPasses,
  x: number,
  y: number,
  z: number,
  ux: number,
  uy: number,
  uz: number,
): number {
  const { right, first, count, corners } = tree;
  let winding = 0;
  let top = 1;
  stack[0] = 0;
  while (top > 0) {
    const node = stack[--top];
    openNode(tree, node);
    if (!passes(tree, node, x, y, z, ux, uy, uz)) continue;
    if (right[node] !== 0) {
      stack[top++] = node + 1;
      stack[top++] = right[node];
      continue;
    }
    const end = 9 * (first[node] + count[node]);
    for (let i = 9 * first[node]; i < end; i += 9) {
      const crossed = rayThroughTriangle(corners, i, x, y, z, ux, uy, uz);
      if (Number.isNaN(crossed)) return UNSURE;
      winding += crossed;
    }
  }
  return winding;
}

/** Whether the ray passes through the box of a node, within rounding. */
function passesUpright(
  { boxes, reachMm }: Tree,
  node: number,
  x: number,
  y: number,
  z: number,
  ux: number,
  uy: number,
  uz: number,
): boolean {
  const b = 6 * node;
  const slack = ROUNDING * reachMm;
  const hx = boxes[b + 3] * WIDER + slack;
  const hy = boxes[b + 4] * WIDER + slack;
  const hz = boxes[b + 5] * WIDER + slack;
  return passesBox(boxes[b] - x, boxes[b + 1] - y, boxes[b + 2] - z, ux, uy, uz, hx, hy, hz);
}

function passesOriented(
  { oriented, reachMm }: Tree,
  node: number,
  x: number,
  y: number,
  z: number,
  ux: number,
  uy: number,
  uz: number,
): boolean {
  const b = BOX * node;
  const dx = oriented[b] - x;
  const dy = oriented[b + 1] - y;
  const dz = oriented[b + 2] - z;
  const slack = 4 * ROUNDING * (reachMm + Math.abs(x) + Math.abs(y) + Math.abs(z));
  return passesBox(
    dx * oriented[b + 3] + dy * oriented[b + 4] + dz * oriented[b + 5],
    dx * oriented[b + 6] + dy * oriented[b + 7] + dz * oriented[b + 8],
    dx * oriented[b + 9] + dy * oriented[b + 10] + dz * oriented[b + 11],
    ux * oriented[b + 3] + uy * oriented[b + 4] + uz * oriented[b + 5],
    ux * oriented[b + 6] + uy * oriented[b + 7] + uz * oriented[b + 8],
    ux * oriented[b + 9] + uy * oriented[b + 10] + uz * oriented[b + 11],
    oriented[b + 12] * WIDER + slack,
    oriented[b + 13] * WIDER + slack,
    oriented[b + 14] * WIDER + slack,
  );
}

/** Whether a ray from the origin along u passes through an axis-parallel box with centre c and half extents h. */
function passesBox(
  cx: number,
  cy: number,
  cz: number,
  ux: number,
  uy: number,
  uz: number,
  hx: number,
  hy: number,
  hz: number,
): boolean {
  const mx = Math.abs(ux);
  const my = Math.abs(uy);
  const mz = Math.abs(uz);
  return !(
    Math.abs(cx * uy - cy * ux) > hx * my + hy * mx ||
    Math.abs(cy * uz - cz * uy) > hy * mz + hz * my ||
    Math.abs(cz * ux - cx * uz) > hz * mx + hx * mz ||
    cx * ux + cy * uy + cz * uz < -(hx * mx + hy * my + hz * mz)
  );
}

/** +1 if the ray leaves through the triangle, -1 if it enters, 0 if it misses, NaN if rounding prevents a decision. */
function rayThroughTriangle(
  t: Float64Array,
  i: number,
  x: number,
  y: number,
  z: number,
  ux: number,
  uy: number,
  uz: number,
): number {
  const ax = t[i] - x;
  const ay = t[i + 1] - y;
  const az = t[i + 2] - z;
  const bx = t[i + 3] - x;
  const by = t[i + 4] - y;
  const bz = t[i + 5] - z;
  const cx = t[i + 6] - x;
  const cy = t[i + 7] - y;
  const cz = t[i + 8] - z;
  const nx = by * cz - bz * cy;
  const ny = bz * cx - bx * cz;
  const nz = bx * cy - by * cx;
  const wa = nx * ux + ny * uy + nz * uz;
  const wb = (cy * az - cz * ay) * ux + (cz * ax - cx * az) * uy + (cx * ay - cy * ax) * uz;
  const wc = (ay * bz - az * by) * ux + (az * bx - ax * bz) * uy + (ax * by - ay * bx) * uz;
  const span =
    Math.abs(ax) +
    Math.abs(ay) +
    Math.abs(az) +
    Math.abs(bx) +
    Math.abs(by) +
    Math.abs(bz) +
    Math.abs(cx) +
    Math.abs(cy) +
    Math.abs(cz);
  const unsure = ROUNDING * span * (span + Math.abs(x) + Math.abs(y) + Math.abs(z));
  const least = Math.min(wa, wb, wc);
  const most = Math.max(wa, wb, wc);
  if (least < -unsure && most > unsure) return 0;
  const ahead = (ax * nx + ay * ny + az * nz) * (wa + wb + wc);
  if (least > unsure) return ahead > 0 ? 1 : 0;
  if (most < -unsure) return ahead > 0 ? -1 : 0;
  return UNSURE;
}

/** Winding number of the surface about the point: the sum of the solid angles of its triangles over 4 pi. */
export function windingOfAngles(tree: Tree, x: number, y: number, z: number): number {
  const { corners: t } = tree;
  let half = 0;
  for (let i = 0; i < t.length; i += 9) {
    const ax = t[i] - x;
    const ay = t[i + 1] - y;
    const az = t[i + 2] - z;
    const bx = t[i + 3] - x;
    const by = t[i + 4] - y;
    const bz = t[i + 5] - z;
    const cx = t[i + 6] - x;
    const cy = t[i + 7] - y;
    const cz = t[i + 8] - z;
    const a = Math.sqrt(ax * ax + ay * ay + az * az);
    const b = Math.sqrt(bx * bx + by * by + bz * bz);
    const c = Math.sqrt(cx * cx + cy * cy + cz * cz);
    const volume = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    const below =
      a * b * c +
      (ax * bx + ay * by + az * bz) * c +
      (bx * cx + by * cy + bz * cz) * a +
      (cx * ax + cy * ay + cz * az) * b;
    half += Math.atan2(volume, below);
  }
  return half / (2 * Math.PI);
}
