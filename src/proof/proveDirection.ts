import { type Motion, TERM, TERMS } from './proveMotion.ts';

/**
 * Result of the last call of `findLowest`. A number returned by a call that is not inlined goes to the heap, and
 * there are millions of these calls.
 */
const lowest = new Float64Array(1);

/**
 * A unit vector fixed in one body, with its products with each term of the other body's motion: along it, the
 * coordinate of a point of the other body is a quadratic in x and y, whose coefficients are affine in the point.
 */
export class Direction {
  readonly n = new Float64Array(3);
  /** n.T for each term T. */
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

  /** For typed arrays this short, a loop copies faster than `set`. */
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
   * Width of the slab perpendicular to the direction that separates two triangles over the cell: `p` of the fixed
   * body and `q` of the other. Excludes the error of the motion's terms.
   */
  slabMm(p: Float64Array, i: number, q: Float64Array, j: number): number {
    let least = Number.POSITIVE_INFINITY;
    for (let k = j; k < j + 9; k += 3) {
      this.findLowest(q, k);
      least = Math.min(least, lowest[0]);
    }
    return least - this.highest(p, i);
  }

  /** Whether that slab is at least `widthMm` wide; faster than `slabMm` if it is not. */
  isSlabAtLeast(p: Float64Array, i: number, q: Float64Array, j: number, widthMm: number): boolean {
    const enough = this.highest(p, i) + widthMm;
    for (let k = j; k < j + 9; k += 3) {
      this.findLowest(q, k);
      if (lowest[0] < enough) return false;
    }
    return true;
  }

  /** Largest coordinate along the direction of the corners of a triangle of the fixed body. */
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

  /**
   * Finds the smallest coordinate along the direction of a point of the other body over the cell; the result is in
   * `lowest`.
   */
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
      quadraticMinimum(r[4] * x + r[5] * y + r[6] * z + r[7], r[12] * x + r[13] * y + r[14] * z + r[15]) +
      quadraticMinimum(r[8] * x + r[9] * y + r[10] * z + r[11], r[20] * x + r[21] * y + r[22] * z + r[23]) -
      Math.abs(r[16] * x + r[17] * y + r[18] * z + r[19]);
  }

  /**
   * Largest decrease along the direction of a corner of triangle `q` due to x alone, plus half of the joint effect of
   * x and y.
   */
  byX(q: Float64Array, j: number): number {
    return this.largestDecrease(q, j, 1, 3);
  }

  /** As `byX`, for y. */
  byY(q: Float64Array, j: number): number {
    return this.largestDecrease(q, j, 2, 5);
  }

  private largestDecrease(q: Float64Array, j: number, linear: number, square: number): number {
    let most = 0;
    for (let k = j; k < j + 9; k += 3) {
      const alone = quadraticMinimum(this.at(linear, q, k), this.at(square, q, k));
      most = Math.max(most, Math.abs(this.at(4, q, k)) / 2 - alone);
    }
    return most;
  }
}

/** Minimum of `g x + h x^2` for -1 <= x <= 1. */
function quadraticMinimum(g: number, h: number): number {
  const slope = Math.abs(g);
  return slope < 2 * h ? (-slope * slope) / (4 * h) : h - slope;
}
