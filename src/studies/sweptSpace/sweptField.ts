import type { Vec3 } from '../../math/vec.ts';
import type { MotionCell } from './motionCell.ts';
import type { SweptBody } from './sweptBody.ts';

/** Tangent planes of a piece over a cell, the difference of its bounds, mm, and the step of the pose that are enough. */
const MOST_PLANES = 4;
const CLOSE_MM = 0.05;
const LEAST_STEP = 0.02;

/**
 * Signed distance of points and triangles of the vehicle from a swept body: the least over all its poses of the signed
 * distance from its pieces. It is 0 or less exactly inside, and changes by no more than the distance between two points.
 *
 * Bounds over a cell of poses. In the body's frame a point moves along q(x, y) = q0 + x u + y w + terms of second order,
 * with -1 <= x, y <= 1 (`MotionCell`). The signed distance of a piece is convex, so it is nowhere below its tangent plane
 * at q0: least value >= d(q0) - |n u| - |n w| + the terms of second order along n. If it is convex in the radius r only
 * (`SweptBody`), then r >= the projection on the radial direction at q0, by which the bound holds where d increases with
 * r; where it decreases, r exceeds that projection by at most t^2 / (2 r), t the motion across. So the loss is of second
 * order in the size of the cell. Every q(x, y) is of a pose, so d there is an upper bound.
 */
export class SweptField {
  readonly body: SweptBody;
  readonly roots: readonly MotionCell[];
  /** Lower bound over the last cell, and upper bound at one of its poses. */
  private low = 0;
  private high = 0;

  constructor(body: SweptBody, roots: readonly MotionCell[]) {
    this.body = body;
    this.roots = roots;
  }

  /**
   * The cells that can decide distances up to `mostMm` in a ball: those of `cells` whose distance from it can be less, and less
   * than that of all others; halved as long as their bounds differ by much for the ball's radius. The nearest is first.
   * Undefined if the distance of every point of the ball is surely at most `insideMm`.
   */
  near(
    cells: readonly MotionCell[],
    [x, y, z]: Vec3,
    radiusMm: number,
    mostMm: number,
    insideMm = Number.NEGATIVE_INFINITY,
  ): MotionCell[] | undefined {
    const kept: { cell: MotionCell; low: number; high: number }[] = [];
    let surelyMm = Number.POSITIVE_INFINITY;
    const open = [...cells];
    for (let i = 0; i < open.length; i++) {
      const cell = open[i];
      this.measure(cell, x, y, z, Math.min(mostMm, surelyMm) + radiusMm);
      const { low, high } = this;
      surelyMm = Math.min(surelyMm, high + radiusMm);
      if (surelyMm <= insideMm) return undefined;
      if (low - radiusMm > Math.min(mostMm, surelyMm)) continue;
      if (high - low > radiusMm / 2 && cell.spreadMm > radiusMm / 2) open.push(...cell.halves());
      else kept.push({ cell, low, high });
    }
    return kept
      .filter(({ low }) => low - radiusMm <= surelyMm)
      .sort((one, other) => one.high - other.high)
      .map(({ cell }) => cell);
  }

  /**
   * A value that is no more than the distance of a point and no less than that less `toleranceMm` if the point is outside, and
   * between the distance and 0 if it is inside. `cells`: see `near`.
   */
  distanceMm(cells: readonly MotionCell[], [x, y, z]: Vec3, toleranceMm: number): number {
    let best = Number.POSITIVE_INFINITY;
    const open: MotionCell[] = [];
    const lows: number[] = [];
    const consider = (cell: MotionCell): void => {
      this.measure(cell, x, y, z, best - toleranceMm);
      best = Math.min(best, this.high);
      if (this.low >= best - toleranceMm) return;
      open.push(cell);
      lows.push(this.low);
    };
    for (const cell of cells) {
      consider(cell);
      if (best <= 0) return best;
    }
    for (let cell = open.pop(); cell !== undefined; cell = open.pop()) {
      if ((lows.pop() as number) >= best - toleranceMm) continue;
      for (const half of cell.halves()) consider(half);
      if (best <= 0) return best;
    }
    return best - toleranceMm;
  }

  /**
   * Computes `low` and `high` of a point over a cell. `below`: higher bounds are of no use, so pieces that cannot be
   * nearer are skipped, and a lower bound is improved with further tangent planes.
   */
  private measure(cell: MotionCell, x: number, y: number, z: number, below: number): void {
    const { body } = this;
    const t = cell.terms;
    const qx = t[0] * x + t[1] * y + t[2] * z + t[3];
    const qy = t[4] * x + t[5] * y + t[6] * z + t[7];
    const qz = t[8] * x + t[9] * y + t[10] * z + t[11];
    const ux = t[12] * x + t[13] * y + t[14] * z + t[15];
    const uy = t[16] * x + t[17] * y + t[18] * z + t[19];
    const uz = t[20] * x + t[21] * y + t[22] * z + t[23];
    const wx = t[24] * x + t[25] * y + t[26] * z + t[27];
    const wy = t[28] * x + t[29] * y + t[30] * z + t[31];
    const wz = t[32] * x + t[33] * y + t[34] * z + t[35];
    const ax = t[36] * x + t[37] * y + t[38] * z + t[39];
    const ay = t[40] * x + t[41] * y + t[42] * z + t[43];
    const az = t[44] * x + t[45] * y + t[46] * z + t[47];
    const bx = t[48] * x + t[49] * y + t[50] * z + t[51];
    const by = t[52] * x + t[53] * y + t[54] * z + t[55];
    const bz = t[56] * x + t[57] * y + t[58] * z + t[59];
    const cx = t[60] * x + t[61] * y + t[62] * z + t[63];
    const cy = t[64] * x + t[65] * y + t[66] * z + t[67];
    const cz = t[68] * x + t[69] * y + t[70] * z + t[71];
    const fx = x - cell.from[0];
    const fy = y - cell.from[1];
    const fz = z - cell.from[2];
    const rest = cell.restMm + cell.restPerMm * Math.sqrt(fx * fx + fy * fy + fz * fz);
    const second =
      Math.sqrt(ax * ax + ay * ay + az * az) +
      Math.sqrt(bx * bx + by * by + bz * bz) +
      Math.sqrt(cx * cx + cy * cy + cz * cz);
    const moves = Math.sqrt(ux * ux + uy * uy + uz * uz) + Math.sqrt(wx * wx + wy * wy + wz * wz) + second;
    this.low = Number.POSITIVE_INFINITY;
    this.high = Number.POSITIVE_INFINITY;
    for (let p = 0; p < body.count; p++) {
      if (body.atLeastMm(p, qx, qy, qz) - moves - rest > Math.min(below, this.high)) continue;
      let low = Number.NEGATIVE_INFINITY;
      let high = Number.POSITIVE_INFINITY;
      // The pose at which the tangent plane is computed, first the middle.
      let onX = 0;
      let onY = 0;
      for (let plane = 0; plane < MOST_PLANES; plane++) {
        const px = qx + onX * (ux + onX * ax + onY * bx) + onY * (wx + onY * cx);
        const py = qy + onX * (uy + onX * ay + onY * by) + onY * (wy + onY * cy);
        const pz = qz + onX * (uz + onX * az + onY * bz) + onY * (wz + onY * cz);
        body.measure(p, px, py, pz);
        const d = body.distanceMm;
        const nx = body.nx;
        const ny = body.ny;
        const nz = body.nz;
        const nu = nx * ux + ny * uy + nz * uz;
        const nw = nx * wx + ny * wy + nz * wz;
        const na = nx * ax + ny * ay + nz * az;
        const nb = nx * bx + ny * by + nz * bz;
        const nc = nx * cx + ny * cy + nz * cz;
        const r = Math.sqrt(px * px + pz * pz);
        const ex = r > 0 ? px / r : 1;
        const ez = r > 0 ? pz / r : 0;
        const uAcross = ex * uz - ez * ux;
        const wAcross = ex * wz - ez * wx;
        const across =
          (1 + Math.abs(onX)) * Math.abs(uAcross) + (1 + Math.abs(onY)) * Math.abs(wAcross) + 2 * second;
        low = Math.max(
          low,
          d -
            Math.abs(nu) -
            Math.abs(nw) -
            onX * nu -
            onY * nw +
            Math.min(-onX * onX * na, (1 - onX * onX) * na) -
            Math.abs(nb) -
            onX * onY * nb +
            Math.min(-onY * onY * nc, (1 - onY * onY) * nc) -
            (body.outward > 0 ? body.outward * risesBy(across, r - 2 * moves) : 0) -
            rest,
        );
        high = Math.min(high, d + rest);
        if (low >= below || high - low < CLOSE_MM) break;
        let toX = onX;
        let toY = onY;
        if (d > 0) {
          // The point of the motion that is nearest to the nearest point of the piece; turns about the axis do not count.
          const ue = ex * ux + ez * uz;
          const we = ex * wx + ez * wz;
          const uu = ue * ue + uy * uy + (body.isSpun ? 0 : uAcross * uAcross);
          const ww = we * we + wy * wy + (body.isSpun ? 0 : wAcross * wAcross);
          const uw = ue * we + uy * wy + (body.isSpun ? 0 : uAcross * wAcross);
          for (let pass = 0; pass < 3; pass++) {
            if (uu > 0) toX = Math.min(Math.max(onX - (d * nu + (toY - onY) * uw) / uu, -1), 1);
            if (ww > 0) toY = Math.min(Math.max(onY - (d * nw + (toX - onX) * uw) / ww, -1), 1);
          }
        } else {
          toX = -Math.sign(nu);
          toY = -Math.sign(nw);
        }
        if (Math.abs(toX - onX) + Math.abs(toY - onY) < LEAST_STEP) break;
        onX = toX;
        onY = toY;
      }
      if (low < this.low) this.low = low;
      if (high < this.high) this.high = high;
    }
  }
}

/**
 * How far a point's distance from the axis exceeds its projection on a radial direction, at most: sqrt(p^2 + t^2) - p for
 * a projection p of `r` or more.
 */
function risesBy(across: number, r: number): number {
  return r > 0 ? Math.min(across, (across * across) / (2 * r)) : across - 2 * r;
}
