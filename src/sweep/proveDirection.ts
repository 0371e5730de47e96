import { type Motion, TERM, TERMS } from './proveMotion.ts';

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
    return Math.min(this.lowest(q, j), this.lowest(q, j + 3), this.lowest(q, j + 6)) - this.highest(p, i);
  }

  /** Whether that slab is so wide at least; cheaper where it is not. */
  keeps(p: Float64Array, i: number, q: Float64Array, j: number, widthMm: number): boolean {
    const enough = this.highest(p, i) + widthMm;
    return this.lowest(q, j) >= enough && this.lowest(q, j + 3) >= enough && this.lowest(q, j + 6) >= enough;
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

  /** Least coordinate along the direction of a point of the other body over the cell. */
  private lowest(q: Float64Array, k: number): number {
    return (
      this.at(0, q, k) +
      leastOfQuadratic(this.at(1, q, k), this.at(3, q, k)) +
      leastOfQuadratic(this.at(2, q, k), this.at(5, q, k)) -
      Math.abs(this.at(4, q, k))
    );
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
