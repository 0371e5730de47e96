import { BOX } from '../clearance/orientedBoxes.ts';
import type { Tree } from '../clearance/tree.ts';
import type { Direction } from './proveDirection.ts';
import { type Motion, TERM, TERMS } from './proveMotion.ts';

/**
 * Numbers of a moved box: centre and three axes at the middle of the cell, the centre's motion with x and with y, and
 * a bound on all other motion of points of the box.
 */
const MOVED = 19;

/**
 * The boxes of a body that moves over a cell, each placed on first use. Input and result of `findGapSq` are fields:
 * as arguments and return values of millions of calls, these numbers would go to the heap.
 */
export class MovedBoxes {
  /** Result of the last call of `findGapSq`, mm^2. */
  readonly gapSq = new Float64Array(1);
  private numbers = new Float64Array(0);
  private placedIn = new Uint32Array(0);
  private cell = 0;
  private motion: Motion | undefined;
  private boxes: Float64Array = new Float64Array(0);
  private restMm = 0;
  private enoughSq = 0;

  /**
   * Starts on the boxes of a body over a cell. `restMm`: error of the motion's terms, with rounding. `boundMm`: the
   * distance to be shown.
   */
  begin({ oriented, right }: Tree, motion: Motion, restMm: number, boundMm: number): void {
    this.enoughSq = boundMm * boundMm;
    this.boxes = oriented;
    this.motion = motion;
    this.restMm = restMm;
    this.cell++;
    if (this.placedIn.length >= right.length) return;
    this.numbers = new Float64Array(MOVED * right.length);
    this.placedIn = new Uint32Array(right.length);
  }

  private place(node: number): void {
    const { numbers, boxes, motion } = this;
    if (motion === undefined) throw new Error('call begin with a motion before placing boxes');
    this.placedIn[node] = this.cell;
    const { terms } = motion;
    const i = BOX * node;
    const out = MOVED * node;
    for (let k = 0; k < 12; k += 3) {
      const x = boxes[i + k];
      const y = boxes[i + k + 1];
      const z = boxes[i + k + 2];
      numbers[out + k] = terms[0] * x + terms[1] * y + terms[2] * z;
      numbers[out + k + 1] = terms[4] * x + terms[5] * y + terms[6] * z;
      numbers[out + k + 2] = terms[8] * x + terms[9] * y + terms[10] * z;
    }
    numbers[out] += terms[3];
    numbers[out + 1] += terms[7];
    numbers[out + 2] += terms[11];
    const x = boxes[i];
    const y = boxes[i + 1];
    const z = boxes[i + 2];
    let rest = this.restMm + motion.bend * boxes[i + 15];
    for (let term = 1; term < TERMS; term++) {
      const t = TERM * term;
      const mx = terms[t] * x + terms[t + 1] * y + terms[t + 2] * z + terms[t + 3];
      const my = terms[t + 4] * x + terms[t + 5] * y + terms[t + 6] * z + terms[t + 7];
      const mz = terms[t + 8] * x + terms[t + 9] * y + terms[t + 10] * z + terms[t + 11];
      if (term > 2) {
        rest += Math.sqrt(mx * mx + my * my + mz * mz);
        continue;
      }
      const at = out + 9 + 3 * term;
      numbers[at] = mx;
      numbers[at + 1] = my;
      numbers[at + 2] = mz;
      for (let k = 0; k < 3; k++) {
        const ax = boxes[i + 3 + 3 * k];
        const ay = boxes[i + 4 + 3 * k];
        const az = boxes[i + 5 + 3 * k];
        const tx = terms[t] * ax + terms[t + 1] * ay + terms[t + 2] * az;
        const ty = terms[t + 4] * ax + terms[t + 5] * ay + terms[t + 6] * az;
        const tz = terms[t + 8] * ax + terms[t + 9] * ay + terms[t + 10] * az;
        rest += boxes[i + 12 + k] * Math.sqrt(tx * tx + ty * ty + tz * tz);
      }
    }
    numbers[out + 18] = rest;
  }

  /**
   * Finds a lower bound of the squared distance, over the cell, between a box of the fixed body and one of this body:
   * along `direction`, else along the axes of either box at the middle. Stops at the first sufficient bound. Returns
   * whether the bound is sufficient.
   */
  findGapSq(fixed: Float64Array, nodeFixed: number, node: number, direction: Direction | undefined): boolean {
    const { gapSq, enoughSq } = this;
    if (this.placedIn[node] !== this.cell) this.place(node);
    const a = fixed;
    const b = this.boxes;
    const m = this.numbers;
    const i = BOX * nodeFixed;
    const j = MOVED * node;
    const half = BOX * node + 12;
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
    const xx = m[j + 12];
    const xy = m[j + 13];
    const xz = m[j + 14];
    const yx = m[j + 15];
    const yy = m[j + 16];
    const yz = m[j + 17];
    const rest = m[j + 18];
    const hu = a[i + 12];
    const hv = a[i + 13];
    const hw = a[i + 14];
    const hp = b[half];
    const hq = b[half + 1];
    const hr = b[half + 2];
    if (direction !== undefined) {
      const { n } = direction;
      const x = n[0];
      const y = n[1];
      const z = n[2];
      const gap =
        dx * x +
        dy * y +
        dz * z -
        hu * Math.abs(x * ux + y * uy + z * uz) -
        hv * Math.abs(x * vx + y * vy + z * vz) -
        hw * Math.abs(x * wx + y * wy + z * wz) -
        hp * Math.abs(x * px + y * py + z * pz) -
        hq * Math.abs(x * qx + y * qy + z * qz) -
        hr * Math.abs(x * rx + y * ry + z * rz) -
        Math.abs(x * xx + y * xy + z * xz) -
        Math.abs(x * yx + y * yy + z * yz) -
        rest;
      if (gap > 0 && gap * gap >= enoughSq) {
        gapSq[0] = gap * gap;
        return true;
      }
    }
    const up = Math.abs(ux * px + uy * py + uz * pz);
    const uq = Math.abs(ux * qx + uy * qy + uz * qz);
    const ur = Math.abs(ux * rx + uy * ry + uz * rz);
    const vp = Math.abs(vx * px + vy * py + vz * pz);
    const vq = Math.abs(vx * qx + vy * qy + vz * qz);
    const vr = Math.abs(vx * rx + vy * ry + vz * rz);
    const wp = Math.abs(wx * px + wy * py + wz * pz);
    const wq = Math.abs(wx * qx + wy * qy + wz * qz);
    const wr = Math.abs(wx * rx + wy * ry + wz * rz);
    const gu =
      Math.abs(dx * ux + dy * uy + dz * uz) -
      (hu + up * hp + uq * hq + ur * hr + rest) -
      Math.abs(xx * ux + xy * uy + xz * uz) -
      Math.abs(yx * ux + yy * uy + yz * uz);
    const gv =
      Math.abs(dx * vx + dy * vy + dz * vz) -
      (hv + vp * hp + vq * hq + vr * hr + rest) -
      Math.abs(xx * vx + xy * vy + xz * vz) -
      Math.abs(yx * vx + yy * vy + yz * vz);
    const gw =
      Math.abs(dx * wx + dy * wy + dz * wz) -
      (hw + wp * hp + wq * hq + wr * hr + rest) -
      Math.abs(xx * wx + xy * wy + xz * wz) -
      Math.abs(yx * wx + yy * wy + yz * wz);
    const first = squareOfPositive(gu) + squareOfPositive(gv) + squareOfPositive(gw);
    if (first >= enoughSq) {
      gapSq[0] = first;
      return true;
    }
    const gp =
      Math.abs(dx * px + dy * py + dz * pz) -
      (hp + up * hu + vp * hv + wp * hw + rest) -
      Math.abs(xx * px + xy * py + xz * pz) -
      Math.abs(yx * px + yy * py + yz * pz);
    const gq =
      Math.abs(dx * qx + dy * qy + dz * qz) -
      (hq + uq * hu + vq * hv + wq * hw + rest) -
      Math.abs(xx * qx + xy * qy + xz * qz) -
      Math.abs(yx * qx + yy * qy + yz * qz);
    const gr =
      Math.abs(dx * rx + dy * ry + dz * rz) -
      (hr + ur * hu + vr * hv + wr * hw + rest) -
      Math.abs(xx * rx + xy * ry + xz * rz) -
      Math.abs(yx * rx + yy * ry + yz * rz);
    gapSq[0] = Math.max(first, squareOfPositive(gp) + squareOfPositive(gq) + squareOfPositive(gr));
    return gapSq[0] >= enoughSq;
  }
}

const squareOfPositive = (x: number): number => (x > 0 ? x * x : 0);
