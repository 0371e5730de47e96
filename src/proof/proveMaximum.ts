import { halfOf, REMAINDER, range, type TaylorModel } from '../math/taylorModel.ts';
import type { CarrierEnclosures } from '../mechanism/carriers.ts';
import type { PoseCell } from './proveCells.ts';

/** A quantity that depends on the pose. The proof bounds its maximum over all poses. */
export interface Quantity {
  /** Value at one pose; undefined if the pose is not reached. */
  at(travelMm: number, steer: number): number | undefined;
  /** Model over a cell of the argument of `value`. */
  over(carriers: CarrierEnclosures): TaylorModel;
  /** A monotonically increasing function. */
  value(argument: number): number;
}

export interface ProvenMaximum {
  /** The largest value found, and its pose. */
  found: { travelMm: number; steer: number; value: number };
  /** Upper bound over all poses of the cells. */
  bound: number;
  /** Whether `bound` is within the tolerance of the value found. */
  complete: boolean;
}

/** Largest number of cells of a proof. */
const MAX_CELLS = 2000;
/** Pieces into which the polynomial of one cell is divided before the cell itself is halved. */
const MAX_PIECES = 400;
/** Far above the rounding of square roots and arctangents, far below the tolerance. */
const ROUNDING = 1e-9;

/** A part of a cell: its model, and its middle on a scale of -1 to 1 over the cell. */
interface Piece {
  model: TaylorModel;
  x: number;
  y: number;
  halfX: number;
  halfY: number;
}

/**
 * Proves the maximum of a quantity over some cells to within a tolerance, by branch and bound. Over a cell the
 * quantity is a polynomial plus a bounded error. The polynomial is divided into pieces, which takes far less time
 * than enclosing the mechanism over smaller cells. A cell is halved only if its bound is too wide.
 */
export function proveMaximum(
  quantity: Quantity,
  cells: readonly PoseCell[],
  found: ProvenMaximum['found'],
  tolerance: number,
): ProvenMaximum {
  const search = new MaximumSearch(quantity, found, tolerance - ROUNDING);
  const open = [...cells];
  let left = MAX_CELLS;
  let complete = true;
  for (let cell = open.pop(); cell !== undefined; cell = open.pop()) {
    const bound = search.boundOver(cell);
    if (bound <= search.enough) {
      search.include(bound);
      continue;
    }
    left -= 1;
    const halves = left > 0 ? cell.halves(cell.widerAlong) : undefined;
    if (halves !== undefined) open.push(...halves);
    else {
      search.include(bound);
      complete = false;
    }
  }
  return { found: search.found, bound: Math.max(search.bound, search.found.value) + ROUNDING, complete };
}

class MaximumSearch {
  found: ProvenMaximum['found'];
  bound = Number.NEGATIVE_INFINITY;
  private readonly quantity: Quantity;
  private readonly tolerance: number;

  constructor(quantity: Quantity, found: ProvenMaximum['found'], tolerance: number) {
    this.quantity = quantity;
    this.found = found;
    this.tolerance = tolerance;
  }

  /** A bound up to this value is close enough. */
  get enough(): number {
    return this.found.value + this.tolerance;
  }

  include(bound: number): void {
    this.bound = Math.max(this.bound, bound);
  }

  /** Upper bound over a cell: at most `enough`, unless the cell has to be halved. Infinity if nothing is known. */
  boundOver(cell: PoseCell): number {
    const { quantity } = this;
    if (cell.carriers === undefined) return Number.POSITIVE_INFINITY;
    const whole = { model: quantity.over(cell.carriers), x: 0, y: 0, halfX: 1, halfY: 1 };
    const open: Piece[] = [whole];
    let bound = Number.NEGATIVE_INFINITY;
    let pieces = 0;
    for (let piece = open.pop(); piece !== undefined; piece = open.pop()) {
      const { model } = piece;
      const pieceBound = quantity.value(range(model).high);
      if (pieceBound <= this.enough) {
        bound = Math.max(bound, pieceBound);
        continue;
      }
      if (quantity.value(model[0]) > this.found.value) this.evaluateMiddle(cell, piece);
      pieces += 1;
      // The model's error does not shrink with the piece.
      const rest = quantity.value(model[0] + model[REMAINDER]);
      if (!(rest < this.enough) || pieces > MAX_PIECES) return this.rangeBound(whole.model);
      open.push(...halvesOf(piece));
    }
    return bound;
  }

  private rangeBound(model: TaylorModel): number {
    const bound = this.quantity.value(range(model).high);
    return Number.isNaN(bound) ? Number.POSITIVE_INFINITY : bound;
  }

  /** Evaluates the pose at the middle of a piece and keeps it if it is the largest value so far. */
  private evaluateMiddle({ travelMm, travelHalfMm, steer, steerHalf }: PoseCell, { x, y }: Piece): void {
    const at = { travelMm: travelMm + x * travelHalfMm, steer: steer + y * steerHalf };
    const value = this.quantity.at(at.travelMm, at.steer);
    if (value !== undefined && value > this.found.value) this.found = { ...at, value };
  }
}

/** Both halves of a piece, divided across the direction in which its bound is less tight. */
function halvesOf({ model, x, y, halfX, halfY }: Piece): Piece[] {
  const lossX = Math.abs(model[3]) + Math.abs(model[6]) + Math.abs(model[7]) + Math.abs(model[10]);
  const lossY = Math.abs(model[5]) + Math.abs(model[9]) + Math.abs(model[8]) + Math.abs(model[14]);
  const sides = [-1, 1] as const;
  return lossX >= lossY
    ? sides.map((side) => ({
        model: halfOf(model, 'x', side),
        x: x + (side * halfX) / 2,
        y,
        halfX: halfX / 2,
        halfY,
      }))
    : sides.map((side) => ({
        model: halfOf(model, 'y', side),
        x,
        y: y + (side * halfY) / 2,
        halfX,
        halfY: halfY / 2,
      }));
}
