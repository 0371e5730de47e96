import { halfOf, REST, range, type TaylorModel } from '../math/taylorModel.ts';
import type { CarrierEnclosures } from '../mechanism/enclosureCarriers.ts';
import type { PoseCell } from './proveCells.ts';

/** A quantity of a pose of which the most over all poses is wanted. */
export interface Quantity {
  /** At one pose; undefined where it is not reached. */
  at(travelMm: number, steer: number): number | undefined;
  /** Over a cell, as the argument of `value`. */
  over(carriers: CarrierEnclosures): TaylorModel;
  /** Never falls as its argument rises. */
  value(argument: number): number;
}

export interface ProvenMost {
  /** The most found, and where. */
  found: { travelMm: number; steer: number; value: number };
  /** No pose of the cells has more. */
  most: number;
  /** Whether `most` is within the tolerance of what was found. */
  complete: boolean;
}

/** Cells that a proof may take. */
const MOST_CELLS = 2000;
/** Pieces into which the polynomial of one cell may be cut before the cell itself is halved. */
const MOST_PIECES = 400;
/** Far above the rounding of square roots and arctangents, far below what is shown. */
const ROUNDING = 1e-9;

/** A part of a cell, by its model and its middle, -1 to 1 over the cell. */
interface Piece {
  model: TaylorModel;
  x: number;
  y: number;
  halfX: number;
  halfY: number;
}

/**
 * Proves the most of a quantity over some cells to within a tolerance, by branch and bound. Over a cell the quantity is a
 * polynomial and a bound on what that leaves out; the polynomial is cut into pieces, which costs far less than enclosing the
 * mechanism over smaller cells. A cell is halved only where its bound is too wide.
 */
export function proveMost(
  quantity: Quantity,
  cells: readonly PoseCell[],
  found: ProvenMost['found'],
  tolerance: number,
): ProvenMost {
  const search = new MostSearch(quantity, found, tolerance - ROUNDING);
  const waiting = [...cells];
  let left = MOST_CELLS;
  let complete = true;
  for (let cell = waiting.pop(); cell !== undefined; cell = waiting.pop()) {
    const bound = search.boundOver(cell);
    if (bound <= search.enough) {
      search.settle(bound);
      continue;
    }
    left -= 1;
    const halves = left > 0 ? cell.halves(cell.widerAlong) : undefined;
    if (halves !== undefined) waiting.push(...halves);
    else {
      search.settle(bound);
      complete = false;
    }
  }
  return { found: search.found, most: Math.max(search.most, search.found.value) + ROUNDING, complete };
}

class MostSearch {
  found: ProvenMost['found'];
  most = Number.NEGATIVE_INFINITY;
  private readonly quantity: Quantity;
  private readonly tolerance: number;

  constructor(quantity: Quantity, found: ProvenMost['found'], tolerance: number) {
    this.quantity = quantity;
    this.found = found;
    this.tolerance = tolerance;
  }

  /** A bound up to here needs no closer look. */
  get enough(): number {
    return this.found.value + this.tolerance;
  }

  settle(bound: number): void {
    this.most = Math.max(this.most, bound);
  }

  /** An upper bound over a cell: within `enough`, unless the cell has to be halved. Infinite where nothing is known. */
  boundOver(cell: PoseCell): number {
    const { quantity } = this;
    if (cell.carriers === undefined) return Number.POSITIVE_INFINITY;
    const whole = { model: quantity.over(cell.carriers), x: 0, y: 0, halfX: 1, halfY: 1 };
    const waiting: Piece[] = [whole];
    let bound = Number.NEGATIVE_INFINITY;
    let pieces = 0;
    for (let piece = waiting.pop(); piece !== undefined; piece = waiting.pop()) {
      const { model } = piece;
      const most = quantity.value(range(model).high);
      if (most <= this.enough) {
        bound = Math.max(bound, most);
        continue;
      }
      if (quantity.value(model[0]) > this.found.value) this.look(cell, piece);
      pieces += 1;
      // What is left out stays as wide as it is, however small the piece.
      const rest = quantity.value(model[0] + model[REST]);
      if (!(rest < this.enough) || pieces > MOST_PIECES) return this.rangeBound(whole.model);
      waiting.push(...halvesOf(piece));
    }
    return bound;
  }

  private rangeBound(model: TaylorModel): number {
    const bound = this.quantity.value(range(model).high);
    return Number.isNaN(bound) ? Number.POSITIVE_INFINITY : bound;
  }

  /** Takes the pose at the middle of a piece where it is worse than what was found. */
  private look({ travelMm, travelHalfMm, steer, steerHalf }: PoseCell, { x, y }: Piece): void {
    const at = { travelMm: travelMm + x * travelHalfMm, steer: steer + y * steerHalf };
    const value = this.quantity.at(at.travelMm, at.steer);
    if (value !== undefined && value > this.found.value) this.found = { ...at, value };
  }
}

/** Both halves of a piece, across the direction in which its bound loses more. */
function halvesOf({ model, x, y, halfX, halfY }: Piece): Piece[] {
  const bendX = Math.abs(model[3]) + Math.abs(model[6]) + Math.abs(model[7]) + Math.abs(model[10]);
  const bendY = Math.abs(model[5]) + Math.abs(model[9]) + Math.abs(model[8]) + Math.abs(model[14]);
  const sides = [-1, 1] as const;
  return bendX >= bendY
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
