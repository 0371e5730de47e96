import {
  addScaled,
  beyondSquares,
  constant,
  magnitude,
  scale,
  type TaylorModel,
} from '../math/taylorModel.ts';
import { combine, dotVec, subVec, type TaylorRigid, type TaylorVec } from '../math/taylorVec.ts';
import type { Vec3 } from '../math/vec.ts';

/** Terms of a Taylor model: 1, x, y, x^2, xy, y^2. */
export const TERMS = 6;
/** Numbers of one term of a motion: the upper three rows of a 4x4 matrix, as in `Rigid`. */
export const TERM = 12;

/**
 * Motion of one body in the frame of another over a cell: a point moves to the sum, over all terms, of the term's
 * matrix applied to the point, times the term. The error of that sum is at most `restMm + restPerMm` times the
 * point's distance from `from`.
 */
export interface Motion {
  terms: Float64Array;
  from: Vec3;
  restMm: number;
  restPerMm: number;
  /**
   * Bounds on the relative motion of two points of the body, for each mm between them: of first order and of second
   * order.
   */
  turn: number;
  bend: number;
}

/** Motion of a body in another's frame over a cell. The reverse motion is computed on first use. */
export class RelativeMotion {
  readonly forward: Motion;
  private readonly aFromB: TaylorRigid;
  private reverse: Motion | undefined;

  /** Motion of carrier b in the frame of carrier a. */
  constructor(vehicleFromA: TaylorRigid, vehicleFromB: TaylorRigid) {
    this.aFromB = relativeTo(vehicleFromA, vehicleFromB);
    this.forward = motionOf(this.aFromB);
  }

  get back(): Motion {
    this.reverse ??= motionOf(inverseOf(this.aFromB));
    return this.reverse;
  }
}

const ONE = constant(1);
const column = (rows: TaylorRigid['rows'], c: number): TaylorVec => [rows[0][c], rows[1][c], rows[2][c]];

/** `aFromB` of two carriers over a cell. */
function relativeTo(vehicleFromA: TaylorRigid, vehicleFromB: TaylorRigid): TaylorRigid {
  const columnsA = [0, 1, 2].map((c) => column(vehicleFromA.rows, c));
  const columnsB = [0, 1, 2].map((c) => column(vehicleFromB.rows, c));
  const between = subVec(vehicleFromB.to, vehicleFromA.to);
  return {
    rows: columnsA.map((a) => columnsB.map((b) => dotVec(a, b))) as unknown as TaylorRigid['rows'],
    from: vehicleFromB.from,
    to: columnsA.map((a, r) => {
      return addScaled(dotVec(a, between), ONE, vehicleFromA.from[r]);
    }) as unknown as TaylorVec,
  };
}

/** Inverse of `aFromB` over a cell. */
function inverseOf({ rows, from, to }: TaylorRigid): TaylorRigid {
  const middle: Vec3 = [to[0][0], to[1][0], to[2][0]];
  // In b's frame, the point of a that `from` reaches at the middle of the cell is at `from`, less the remaining
  // motion of `from`.
  const remaining = to.map((model) => addScaled(model, ONE, -model[0])) as unknown as TaylorVec;
  const columns = [0, 1, 2].map((c) => column(rows, c)) as unknown as TaylorRigid['rows'];
  return {
    rows: columns,
    from: middle,
    to: columns.map((turnedAxis, r) => {
      return addScaled(scale(dotVec(turnedAxis, remaining), -1), ONE, from[r]);
    }) as unknown as TaylorVec,
  };
}

/** Bound on the spectral norm: the root of the largest absolute row sum times the largest absolute column sum. */
function normOf(terms: Float64Array, at: number): number {
  const rowSum = (r: number) =>
    Math.abs(terms[at + r]) + Math.abs(terms[at + r + 1]) + Math.abs(terms[at + r + 2]);
  const columnSum = (c: number) =>
    Math.abs(terms[at + c]) + Math.abs(terms[at + c + 4]) + Math.abs(terms[at + c + 8]);
  return Math.sqrt(
    Math.max(rowSum(0), rowSum(4), rowSum(8)) * Math.max(columnSum(0), columnSum(1), columnSum(2)),
  );
}

function motionOf({ rows, from, to }: TaylorRigid): Motion {
  const terms = new Float64Array(TERMS * TERM);
  let restSq = 0;
  let turnRestSq = 0;
  for (let r = 0; r < 3; r++) {
    const shift = combine(rows[r], from);
    for (let term = 0; term < TERMS; term++) {
      const at = TERM * term + 4 * r;
      for (let c = 0; c < 3; c++) terms[at + c] = rows[r][c][term];
      terms[at + 3] = to[r][term] - shift[term];
    }
    restSq += beyondSquares(to[r]) ** 2;
    for (let c = 0; c < 3; c++) turnRestSq += beyondSquares(rows[r][c]) ** 2;
  }
  return {
    terms,
    from,
    restMm: Math.sqrt(restSq),
    restPerMm: Math.sqrt(turnRestSq),
    turn: normOf(terms, TERM) + normOf(terms, 2 * TERM),
    bend: normOf(terms, 3 * TERM) + normOf(terms, 4 * TERM) + normOf(terms, 5 * TERM),
  };
}

/** Whether the motion is bounded. */
export const isKnown = ({ rows, to }: TaylorRigid): boolean =>
  [...rows.flat(), ...to].every((model: TaylorModel) => Number.isFinite(magnitude(model)));
