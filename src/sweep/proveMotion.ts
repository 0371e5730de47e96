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
 * How one body moves in the frame of another over a cell: a point goes to the sum of what each term makes of it, times
 * the term. What that leaves out is at most `restMm + restPerMm` times the point's distance from `from`.
 */
export interface Motion {
  terms: Float64Array;
  from: Vec3;
  restMm: number;
  restPerMm: number;
  /** Bounds on how far the terms move two points of the body apart, for each mm between them: first order, second order. */
  turn: number;
  bend: number;
}

/** How a body moves in another's frame over a cell, and the other way round, which is not always asked for. */
export class RelativeMotion {
  readonly forward: Motion;
  private readonly aFromB: TaylorRigid;
  private known: Motion | undefined;

  /** Of two carriers over a cell: of b in the frame of a. */
  constructor(vehicleFromA: TaylorRigid, vehicleFromB: TaylorRigid) {
    this.aFromB = relativeTo(vehicleFromA, vehicleFromB);
    this.forward = motionOf(this.aFromB);
  }

  get back(): Motion {
    this.known ??= motionOf(inverseOf(this.aFromB));
    return this.known;
  }
}

const ONE = constant(1);
const column = (rows: TaylorRigid['rows'], c: number): TaylorVec => [rows[0][c], rows[1][c], rows[2][c]];

/** `aFromB` over a cell, of two carriers. */
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

/** `bFromA` of an `aFromB` over a cell. */
function inverseOf({ rows, from, to }: TaylorRigid): TaylorRigid {
  const middle: Vec3 = [to[0][0], to[1][0], to[2][0]];
  // Seen from b, the place in a that `from` goes to at the middle of the cell stands where `from` is, less the way that
  // `from` still has to go.
  const way = to.map((model) => addScaled(model, ONE, -model[0])) as unknown as TaylorVec;
  const columns = [0, 1, 2].map((c) => column(rows, c)) as unknown as TaylorRigid['rows'];
  return {
    rows: columns,
    from: middle,
    to: columns.map((turnedAxis, r) => {
      return addScaled(scale(dotVec(turnedAxis, way), -1), ONE, from[r]);
    }) as unknown as TaylorVec,
  };
}

/** Largest absolute row sum times largest absolute column sum: the square of a bound on the spectral norm. */
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

/** Whether anything is known of the motion. */
export const isKnown = ({ rows, to }: TaylorRigid): boolean =>
  [...rows.flat(), ...to].every((model: TaylorModel) => Number.isFinite(magnitude(model)));
