import type { CellAddress, PoseCell } from './proveCells.ts';
import type { ProvedPair } from './provedPair.ts';

/** Work of a proof: number of cells searched, and of pairs of boxes and of triangles evaluated in them. */
export interface Effort {
  cells: number;
  evaluations: number;
}

export const reaches = (spent: Effort, limit: Effort): boolean =>
  spent.cells >= limit.cells || spent.evaluations >= limit.evaluations;
export const lesser = (a: Effort, b: Effort): Effort => ({
  cells: Math.min(a.cells, b.cells),
  evaluations: Math.min(a.evaluations, b.evaluations),
});
export const sum = (a: Effort, b: Effort): Effort => ({
  cells: a.cells + b.cells,
  evaluations: a.evaluations + b.evaluations,
});

/** Unproved node pairs of each surface pair over a cell; undefined for all of them. */
type Unproved = readonly (Int32Array | undefined)[];

/** A cell that is not proved yet. */
export interface OpenCell {
  cell: PoseCell;
  unproved: Unproved;
}

/** An open cell as plain data that can be sent to any thread. */
export interface OpenCellData {
  address: CellAddress;
  unproved: Unproved;
}

/** State of a branch-and-bound search. */
export interface Search {
  /** A stack: the last cell is searched next. */
  open: OpenCell[];
  toleranceMm: number;
  /** Effort after which the tolerance doubles. */
  budget: Effort;
  /** Lower bound over the cells that are proved, mm. */
  lowerMm: number;
  spent: Effort;
  /** Whether the last open cell cannot be halved any more. */
  isStuck: boolean;
}

/** The smallest clearance found, mm, and its pose. */
export interface Least {
  foundMm: number;
  at: { travelMm: number; steer: number } | undefined;
}

/** A long proof, split into parts that any threads can search independently. Plain data. */
export interface DividedProof {
  kind: 'divided';
  /** State of the search without its open cells. `minStepMm`: the smallest clearance at a step of the sweep. */
  state: Least & Omit<Search, 'open' | 'isStuck'> & { minStepMm: number };
  /** Largest effort of one part. */
  partBudget: Effort;
  parts: readonly (readonly OpenCellData[])[];
}

/** Result of searching one part; `lowerMm` and `spent` are of this part alone. */
export interface PartResult extends Least, Pick<Search, 'lowerMm' | 'spent' | 'isStuck'> {
  open: readonly OpenCellData[];
}

/** A proved pair, or a proof to continue in parts. */
export type Outcome = { kind: 'proved'; proved: ProvedPair } | DividedProof;

/** Parts of a divided proof: enough to keep any number of threads busy to the end. */
const PARTS = 32;

export const toData = (open: readonly OpenCell[]): OpenCellData[] =>
  open.map(({ cell, unproved }) => ({ address: cell.address, unproved }));

/** Halves a cell along `along`, or along the other direction if that is not possible; undefined if neither is. */
export const halvesOf = (cell: PoseCell, along: 'travel' | 'steer') =>
  cell.halves(along) ?? cell.halves(along === 'travel' ? 'steer' : 'travel');

/** Splits a search into parts with equal shares of its remaining budget. The split depends on the search alone. */
export function divide(search: Search, least: Least & { minStepMm: number }): DividedProof {
  const { toleranceMm, budget, lowerMm, spent } = search;
  const cells = toData(halvedTo(PARTS, search.open));
  const count = Math.min(PARTS, cells.length);
  const from = (part: number) => Math.floor((part * cells.length) / count);
  return {
    kind: 'divided',
    state: { ...least, toleranceMm, budget, lowerMm, spent },
    partBudget: {
      cells: Math.ceil((budget.cells - spent.cells) / count),
      evaluations: Math.ceil((budget.evaluations - spent.evaluations) / count),
    },
    parts: Array.from({ length: count }, (_, part) => cells.slice(from(part), from(part + 1))),
  };
}

/** Halves the largest cells until there are `count` cells or none can be halved any more. */
function halvedTo(count: number, open: readonly OpenCell[]): OpenCell[] {
  const cells = [...open];
  const smallest = new Set<PoseCell>();
  while (cells.length < count) {
    const divisible = cells.filter(({ cell }) => !smallest.has(cell));
    if (divisible.length === 0) break;
    const largest = divisible.reduce((large, one) => (one.cell.halvings < large.cell.halvings ? one : large));
    const halves = halvesOf(largest.cell, largest.cell.widerAlong);
    if (halves === undefined) {
      smallest.add(largest.cell);
      continue;
    }
    const { unproved } = largest;
    const both = [halves[1], halves[0]].map((cell) => ({ cell, unproved }));
    cells.splice(cells.indexOf(largest), 1, ...both);
  }
  return cells;
}
