import type { Rigid } from '../math/rigid.ts';
import { BOX } from './orientedBoxes.ts';

/** Count of numbers of a box of B in the frame of A: centre, three axes. */
const MOVED = 12;
/** Boxes of B moved at this pose, and the search in which each was moved. All searches share them. */
let movedBoxes = new Float64Array(0);
let movedAt = new Uint32Array(0);
let searches = 0;

/** Reserves memory for the boxes of a tree with this many nodes. */
export function reserveBoxes(nodes: number): void {
  if (movedAt.length >= nodes) return;
  movedBoxes = new Float64Array(MOVED * nodes);
  movedAt = new Uint32Array(nodes);
}

/** Starts a new pose or tree: no box is moved yet. */
export function beginPose(): void {
  searches++;
}

/** Moves the box of a node of B into the frame of A, once per pose. */
export function moveBox(t: Rigid, boxes: Float64Array, node: number): void {
  if (movedAt[node] === searches) return;
  const i = BOX * node;
  const out = MOVED * node;
  for (let k = 0; k < MOVED; k += 3) {
    const x = boxes[i + k];
    const y = boxes[i + k + 1];
    const z = boxes[i + k + 2];
    movedBoxes[out + k] = t[0] * x + t[1] * y + t[2] * z;
    movedBoxes[out + k + 1] = t[4] * x + t[5] * y + t[6] * z;
    movedBoxes[out + k + 2] = t[8] * x + t[9] * y + t[10] * z;
  }
  movedBoxes[out] += t[3];
  movedBoxes[out + 1] += t[7];
  movedBoxes[out + 2] += t[11];
  movedAt[node] = searches;
}

export function centresSq(boxesA: Float64Array, i: number, nodeB: number): number {
  const j = MOVED * nodeB;
  const dx = movedBoxes[j] - boxesA[i];
  const dy = movedBoxes[j + 1] - boxesA[i + 1];
  const dz = movedBoxes[j + 2] - boxesA[i + 2];
  return dx * dx + dy * dy + dz * dz;
}

/** If long sides are less than half a degree from parallel, their common perpendicular is too inaccurate. */
const LEAST_SINE_SQ = 1e-4;

/**
 * How far a box is from being a line. The thicker box makes the bound looser and is split first; length alone does
 * not.
 */
export const thickness = (boxes: Float64Array, i: number): number => boxes[i + 13] + boxes[i + 14];

/**
 * Lower bound of the squared distance of two oriented boxes, from three bounds. First: in the axes of the one box,
 * the other fits in an axis-parallel box, and two such boxes have an exact distance. Second: the same in the axes of
 * the other box. Third: the gap along the common perpendicular of both longest sides, which separates two crossing
 * rods. The third is computed only if the first two are at most `thresholdSq`. If the bound is above `thresholdSq`,
 * sets `direction` to the unit direction from A to B, in the frame of A, along which the boxes are that far apart.
 */
export function gapSq(
  direction: Float64Array,
  a: Float64Array,
  i: number,
  b: Float64Array,
  nodeB: number,
  slack: number,
  thresholdSq: number,
): number {
  const m = movedBoxes;
  const j = MOVED * nodeB;
  const half = BOX * nodeB + 12;
  const dx = m[j] - a[i];
  const dy = m[j + 1] - a[i + 1];
  const dz = m[j + 2] - a[i + 2];
  const ux = a[i + 3];
  const uy = a[i + 4];
  const uz = a[i + 5];
  const vx = a[i + 6];
  const vy = a[i + 7];
  const vz = a[i + 8];
  const wx = a[i + 9];
  const wy = a[i + 10];
  const wz = a[i + 11];
  const px = m[j + 3];
  const py = m[j + 4];
  const pz = m[j + 5];
  const qx = m[j + 6];
  const qy = m[j + 7];
  const qz = m[j + 8];
  const rx = m[j + 9];
  const ry = m[j + 10];
  const rz = m[j + 11];
  const hp = b[half];
  const hq = b[half + 1];
  const hr = b[half + 2];
  const up = ux * px + uy * py + uz * pz;
  const uq = Math.abs(ux * qx + uy * qy + uz * qz);
  const ur = Math.abs(ux * rx + uy * ry + uz * rz);
  const vp = vx * px + vy * py + vz * pz;
  const vq = Math.abs(vx * qx + vy * qy + vz * qz);
  const vr = Math.abs(vx * rx + vy * ry + vz * rz);
  const wp = wx * px + wy * py + wz * pz;
  const wq = Math.abs(wx * qx + wy * qy + wz * qz);
  const wr = Math.abs(wx * rx + wy * ry + wz * rz);
  const mup = Math.abs(up);
  const mvp = Math.abs(vp);
  const mwp = Math.abs(wp);
  const hu = a[i + 12] + slack;
  const hv = a[i + 13] + slack;
  const hw = a[i + 14] + slack;
  const du = dx * ux + dy * uy + dz * uz;
  const dv = dx * vx + dy * vy + dz * vz;
  const dw = dx * wx + dy * wy + dz * wz;
  const dp = dx * px + dy * py + dz * pz;
  const dq = dx * qx + dy * qy + dz * qz;
  const dr = dx * rx + dy * ry + dz * rz;
  const g0 = Math.max(0, Math.abs(du) - (hu + mup * hp + uq * hq + ur * hr));
  const g1 = Math.max(0, Math.abs(dv) - (hv + mvp * hp + vq * hq + vr * hr));
  const g2 = Math.max(0, Math.abs(dw) - (hw + mwp * hp + wq * hq + wr * hr));
  const k0 = Math.max(0, Math.abs(dp) - (hp + mup * hu + mvp * hv + mwp * hw + slack));
  const k1 = Math.max(0, Math.abs(dq) - (hq + uq * hu + vq * hv + wq * hw + slack));
  const k2 = Math.max(0, Math.abs(dr) - (hr + ur * hu + vr * hv + wr * hw + slack));
  const first = g0 * g0 + g1 * g1 + g2 * g2;
  const second = k0 * k0 + k1 * k1 + k2 * k2;
  const best = Math.max(first, second);
  if (best <= thresholdSq) {
    const nn = vp * vp + wp * wp;
    if (nn < LEAST_SINE_SQ) return best;
    const along = dw * vp - dv * wp;
    const across = Math.abs(along) - hv * mwp - hw * mvp - hq * ur - hr * uq - 2 * slack;
    if (across <= 0) return best;
    const third = (across * across) / nn;
    if (third > thresholdSq) {
      const f = (along < 0 ? -1 : 1) / Math.sqrt(nn);
      direction[0] = f * (vp * wx - wp * vx);
      direction[1] = f * (vp * wy - wp * vy);
      direction[2] = f * (vp * wz - wp * vz);
    }
    return Math.max(third, best);
  }
  const f = 1 / Math.sqrt(best);
  if (first >= second) {
    const x = du < 0 ? -g0 * f : g0 * f;
    const y = dv < 0 ? -g1 * f : g1 * f;
    const z = dw < 0 ? -g2 * f : g2 * f;
    direction[0] = x * ux + y * vx + z * wx;
    direction[1] = x * uy + y * vy + z * wy;
    direction[2] = x * uz + y * vz + z * wz;
  } else {
    const x = dp < 0 ? -k0 * f : k0 * f;
    const y = dq < 0 ? -k1 * f : k1 * f;
    const z = dr < 0 ? -k2 * f : k2 * f;
    direction[0] = x * px + y * qx + z * rx;
    direction[1] = x * py + y * qy + z * ry;
    direction[2] = x * pz + y * qz + z * rz;
  }
  return best;
}
