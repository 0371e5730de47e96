import { type Motion, TERM, TERMS } from './proveMotion.ts';

/**
 * What the last call of `findLowest` found: a number that is handed back by a call that is not compiled into its caller
 * goes to the heap, and there are millions of these.
 */
const lowest = new Float64Array(1);

/**
 * A unit vector that is fixed in the one body, and what it sees of each term of the other's motion: the coordinate along
 * it of a point of the other body is a quadratic in x and y, whose coefficients are affine in the point.
 */
export class Direction {
  readonly n = new Float64Array(3);
  /** n.T of each term T. */
  private readonly rows = new Float64Array(4 * TERMS);

  set(x: number, y: number, z: number, { terms }: Motion): void {
    const { n, rows } = this;
    n[0] = x;
    n[1] = y;
    n[2] = z;
    for (let term = 0; term < TERMS; term++) {
      const t = TERM * term;
      for (let k = 0; k < 4; k++)
        rows[4 * term + k] = x * terms[t + k] + y * terms[t + 4 + k] + z * terms[t + 8 + k];
    }
  }

  /** Typed arrays this short are copied faster one by one than by their `set`. */
  copy({ n, rows }: Direction): void {
    for (let k = 0; k < n.length; k++) this.n[k] = n[k];
    for (let k = 0; k < rows.length; k++) this.rows[k] = rows[k];
  }

  private at(term: number, q: Float64Array, j: number): number {
    const { rows } = this;
    const r = 4 * term;
    return rows[r] * q[j] + rows[r + 1] * q[j + 1] + rows[r + 2] * q[j + 2] + rows[r + 3];
  }

  /**
   * Width of the slab square to the direction that stays between two triangles over the cell: `p` of the body it is fixed
   * in, and `q` of the other. What the terms leave out is still to be taken off.
   */
  slabMm(p: Float64Array, i: number, q: Float64Array, j: number): number {
    let least = Number.POSITIVE_INFINITY;
    for (let k = j; k < j + 9; k += 3) {
      this.findLowest(q, k);
      least = Math.min(least, lowest[0]);
    }
    return least - this.highest(p, i);
  }

  /** Whether that slab is so wide at least; cheaper where it is not. */
  keeps(p: Float64Array, i: number, q: Float64Array, j: number, widthMm: number): boolean {
    const enough = this.highest(p, i) + widthMm;
    for (let k = j; k < j + 9; k += 3) {
      this.findLowest(q, k);
      if (lowest[0] < enough) return false;
    }
    return true;
  }

  /** Greatest coordinate along the direction of the corners of a triangle of the body it is fixed in. */
  private highest(p: Float64Array, i: number): number {
    const { n } = this;
    const x = n[0];
    const y = n[1];
    const z = n[2];
    return Math.max(
      x * p[i] + y * p[i + 1] + z * p[i + 2],
      x * p[i + 3] + y * p[i + 4] + z * p[i + 5],
      x * p[i + 6] + y * p[i + 7] + z * p[i + 8],
    );
  }

  /** Least coordinate along the direction of a point of the other body over the cell, into `lowest`. */
  private findLowest(q: Float64Array, k: number): void {
    const { rows: r } = this;
    const x = q[k];
    const y = q[k + 1];
    const z = q[k + 2];
    lowest[0] =
      r[0] * x +
      r[1] * y +
      r[2] * z +
      r[3] +
      leastOfQuadratic(r[4] * x + r[5] * y + r[6] * z + r[7], r[12] * x + r[13] * y + r[14] * z + r[15]) +
      leastOfQuadratic(r[8] * x + r[9] * y + r[10] * z + r[11], r[20] * x + r[21] * y + r[22] * z + r[23]) -
      Math.abs(r[16] * x + r[17] * y + r[18] * z + r[19]);
  }

  /** How far x alone brings a corner of triangle `q` down along the direction; half of what x and y do together. */
  byX(q: Float64Array, j: number): number {
    return this.down(q, j, 1, 3);
  }

  /** As `byX`. */
  byY(q: Float64Array, j: number): number {
    return this.down(q, j, 2, 5);
  }

  private down(q: Float64Array, j: number, linear: number, square: number): number {
    let most = 0;
    for (let k = j; k < j + 9; k += 3) {
      const alone = leastOfQuadratic(this.at(linear, q, k), this.at(square, q, k));
      most = Math.max(most, Math.abs(this.at(4, q, k)) / 2 - alone);
    }
    return most;
  }
}

/** Least value of `g x + h x^2` for -1 <= x <= 1. */
function leastOfQuadratic(g: number, h: number): number {
  const slope = Math.abs(g);
  return slope < 2 * h ? (-slope * slope) / (4 * h) : h - slope;
}
