import { applyDirection, type Rigid } from '../../math/rigid.ts';
import { distance, type Vec3 } from '../../math/vec.ts';
import { type Motion, TERM, TERMS } from '../../proof/proveMotion.ts';

/** A range of poses: travel (mm) and steer (-1 to 1), each by its middle and half width. */
export interface PoseRange {
  travelMm: number;
  travelHalfMm: number;
  steer: number;
  steerHalf: number;
}

/**
 * Motion of the vehicle in the frame of the swept body over a range of poses; undefined if it is not proved to exist over
 * the whole range.
 */
export type Enclose = (range: PoseRange) => Motion | undefined;

/** Error of the first cells, mm, and of cells that are divided without a new enclosure. */
const FIRST_REST_MM = 0.3;
const LEAST_REST_MM = 0.1;
/** Rounding of the terms of a cell that is divided, mm: far above 20 divisions of terms of metres. */
const ROUNDING_MM = 1e-7;

/** What is swept, and how it moves. */
export interface Swept {
  enclose: Enclose;
  /** Transform from the frame of the motion to that of the body. */
  bodyFromCarrier: Rigid;
  body: Ball;
}

/**
 * A range of poses in which a point of the vehicle moves, in the body's frame, along a polynomial of second order in travel
 * and steer, each from -1 to 1 over the range, with a bounded error.
 */
export class MotionCell {
  readonly range: PoseRange;
  /** Six matrices (`Motion.terms`): of 1, x, y, x^2, xy, y^2. */
  readonly terms: Float64Array;
  readonly restMm: number;
  readonly restPerMm: number;
  readonly from: Vec3;
  /** Bound on the motion of two points relative to each other, for each mm between them. */
  readonly turnPerMm: number;
  /** Bound on the displacement of any point of the body from the middle of the range, mm. */
  readonly spreadMm: number;
  /** Error of the polynomial at the furthest point of the body, mm. */
  readonly errorMm: number;
  private readonly swept: Swept;
  private readonly alongTravel: boolean;
  private made: readonly [MotionCell, MotionCell] | undefined;

  /** `motion`: in the frame of the body. */
  constructor(
    range: PoseRange,
    motion: Pick<Motion, 'terms' | 'from' | 'restMm' | 'restPerMm'>,
    swept: Swept,
  ) {
    const { terms, from, restMm, restPerMm } = motion;
    const { centre, radiusMm } = swept.body;
    this.range = range;
    this.terms = terms;
    this.from = from;
    this.restMm = restMm + ROUNDING_MM;
    this.restPerMm = restPerMm;
    this.swept = swept;
    const inVehicle = vehiclePoint(terms, centre);
    let turnPerMm = 0;
    let spreadMm = 0;
    const moves = [0, 0];
    for (let term = 1; term < TERMS; term++) {
      const turn = turnNorm(terms, TERM * term);
      const move = lengthAt(terms, TERM * term, inVehicle) + turn * radiusMm;
      turnPerMm += turn;
      spreadMm += move;
      if (term <= 2) moves[term - 1] = move;
    }
    this.turnPerMm = turnPerMm;
    this.errorMm = this.restMm + restPerMm * (distance(inVehicle, from) + radiusMm);
    this.spreadMm = spreadMm + this.errorMm;
    this.alongTravel = moves[0] >= moves[1];
  }

  /** Both halves of the range, across the direction in which the body moves further. Computed once. */
  halves(): readonly [MotionCell, MotionCell] {
    this.made ??= [this.half(-1), this.half(1)];
    return this.made;
  }

  private half(side: -1 | 1): MotionCell {
    const { swept, terms, alongTravel } = this;
    const range = halfRange(this.range, alongTravel, side);
    const enclosed = this.errorMm > LEAST_REST_MM ? encloseCell(range, swept) : undefined;
    if (enclosed !== undefined) return enclosed;
    const out = new Float64Array(TERMS * TERM);
    // x = side / 2 + x' / 2, or the same for y.
    const [own, other, square, otherSquare] = alongTravel ? [1, 2, 3, 5] : [2, 1, 5, 3];
    for (let k = 0; k < TERM; k++) {
      const slope = terms[TERM * own + k];
      const bend = terms[TERM * square + k];
      const mixed = terms[TERM * 4 + k];
      out[k] = terms[k] + (side * slope) / 2 + bend / 4;
      out[TERM * own + k] = slope / 2 + (side * bend) / 2;
      out[TERM * other + k] = terms[TERM * other + k] + (side * mixed) / 2;
      out[TERM * square + k] = bend / 4;
      out[TERM * 4 + k] = mixed / 2;
      out[TERM * otherSquare + k] = terms[TERM * otherSquare + k];
    }
    return new MotionCell(range, { ...this, terms: out }, swept);
  }
}

/** The cell of a range of poses; undefined if the motion is not enclosed. */
function encloseCell(range: PoseRange, swept: Swept): MotionCell | undefined {
  const motion = swept.enclose(range);
  return motion && new MotionCell(range, inBody(motion, swept.bodyFromCarrier), swept);
}

/** A ball that contains the swept body, in the body's frame. */
export interface Ball {
  centre: Vec3;
  radiusMm: number;
}

function halfRange(range: PoseRange, alongTravel: boolean, side: -1 | 1): PoseRange {
  const { travelMm, travelHalfMm, steer, steerHalf } = range;
  return alongTravel
    ? { ...range, travelMm: travelMm + (side * travelHalfMm) / 2, travelHalfMm: travelHalfMm / 2 }
    : { ...range, steer: steer + (side * steerHalf) / 2, steerHalf: steerHalf / 2 };
}

/** The vehicle point that a point of the body's frame is at in the middle of a cell. */
export function vehiclePoint(t: Float64Array, [x, y, z]: Vec3): Vec3 {
  const [a, b, c] = [x - t[3], y - t[7], z - t[11]];
  return [t[0] * a + t[4] * b + t[8] * c, t[1] * a + t[5] * b + t[9] * c, t[2] * a + t[6] * b + t[10] * c];
}

function lengthAt(t: Float64Array, at: number, [x, y, z]: Vec3): number {
  let sumSq = 0;
  for (let r = at; r < at + TERM; r += 4) sumSq += (t[r] * x + t[r + 1] * y + t[r + 2] * z + t[r + 3]) ** 2;
  return Math.sqrt(sumSq);
}

/** Bound on the spectral norm of the turn of a term: the Frobenius norm. */
function turnNorm(t: Float64Array, at: number): number {
  let sumSq = 0;
  for (let r = 0; r < TERM; r += 4) for (let c = 0; c < 3; c++) sumSq += t[at + r + c] ** 2;
  return Math.sqrt(sumSq);
}

/** Largest number of halvings in search of an enclosure; after that, the mechanism is taken to lock out. */
const MOST_HALVINGS = 16;

/**
 * Divides ranges of poses into cells in which the motion is enclosed. `notEnclosed`: a range without an enclosure, in which the
 * mechanism locks out or comes too near to it. The others are then not divided to the end.
 */
export function divideIntoCells(
  ranges: readonly PoseRange[],
  swept: Swept,
): { cells: MotionCell[]; notEnclosed?: PoseRange } {
  const cells: MotionCell[] = [];
  const open = ranges.map((range) => ({ range, halvings: 0 }));
  for (let one = open.pop(); one !== undefined; one = open.pop()) {
    const { range, halvings } = one;
    const cell = encloseCell(range, swept);
    if (cell !== undefined && cell.errorMm <= FIRST_REST_MM) {
      cells.push(cell);
      continue;
    }
    const isPoint = range.travelHalfMm === 0 && range.steerHalf === 0;
    if (isPoint || halvings === MOST_HALVINGS) return { cells, notEnclosed: range };
    // Alternating keeps cells about as long as they are wide.
    const alongTravel = range.steerHalf === 0 || (range.travelHalfMm > 0 && halvings % 2 === 0);
    for (const side of [-1, 1] as const)
      open.push({ range: halfRange(range, alongTravel, side), halvings: halvings + 1 });
  }
  return { cells };
}

/** The motion in the body's frame. */
function inBody(motion: Motion, bodyFromCarrier: Rigid): Motion {
  const terms = new Float64Array(motion.terms.length);
  for (let at = 0; at < terms.length; at += TERM)
    for (let c = 0; c < 4; c++) {
      const column: Vec3 = [motion.terms[at + c], motion.terms[at + 4 + c], motion.terms[at + 8 + c]];
      const [x, y, z] = applyDirection(bodyFromCarrier, column);
      const shift = at === 0 && c === 3 ? 1 : 0;
      terms[at + c] = x + shift * bodyFromCarrier[3];
      terms[at + 4 + c] = y + shift * bodyFromCarrier[7];
      terms[at + 8 + c] = z + shift * bodyFromCarrier[11];
    }
  return { ...motion, terms };
}
