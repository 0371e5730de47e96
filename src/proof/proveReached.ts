import { type PoseCell, type Range, SCALE } from './proveCells.ts';

/** A cell by its range in the first direction of a path and its range in the second. */
interface PlacedCell {
  cell: PoseCell;
  along: Range;
  /** Second direction: outward from ride height or straight ahead. */
  outward: Range;
}

/**
 * Filters enclosed cells: returns those whose poses are all reached from ride height through enclosed cells, either
 * by travel straight ahead and then steer at that travel, or by steer at ride height and then travel at that steer.
 * `solvePose` tries these paths (`WAYS`), so it reaches every pose of these cells. On the way to other cells it may
 * meet a lock-out, although the mechanism works in them. `minMm`, `maxMm`: ends of the travel that is divided into
 * cells.
 */
export function reachedCells(cells: readonly PoseCell[], minMm: number, maxMm: number): Set<PoseCell> {
  const rideHeight = (SCALE * -minMm) / (maxMm - minMm);
  const reached = new Set<PoseCell>();
  const signed = ({ side, steerRange: [from, to] }: PoseCell): Range =>
    side > 0 ? [from, to] : [-to, -from];
  const fromZero = ([from, to]: Range, zero: number): Range => [from - zero, to - zero];
  const travelFirst = cells.map((cell) => ({
    cell,
    along: fromZero(cell.travelRange, rideHeight),
    outward: signed(cell),
  }));
  const steerFirst = cells.map((cell) => ({
    cell,
    along: signed(cell),
    outward: fromZero(cell.travelRange, rideHeight),
  }));
  for (const placed of [travelFirst, steerFirst]) {
    const stem = reachableStem(placed);
    for (const sense of [1, -1]) for (const cell of outwardFrom(stem, placed, sense)) reached.add(cell);
  }
  return reached;
}

const contains = ([from, to]: Range, x: number): boolean => from <= x && x <= to;

/** Range that the first direction reaches through cells, to either side of 0. */
function reachableStem(placed: readonly PlacedCell[]): Range {
  const onLine = placed.filter(({ outward }) => contains(outward, 0));
  let [low, high] = [0, 0];
  for (let grown = true; grown; ) {
    grown = false;
    for (const { along } of onLine) {
      if (along[0] <= high && along[1] > high) [high, grown] = [along[1], true];
      if (along[1] >= low && along[0] < low) [low, grown] = [along[0], true];
    }
  }
  return [low, high];
}

/** The cells reached outward from the stem, in one sense. */
function outwardFrom(stem: Range, placed: readonly PlacedCell[], sense: number): PoseCell[] {
  const turned =
    sense > 0
      ? placed
      : placed.map((one) => ({ ...one, outward: [-one.outward[1], -one.outward[0]] as const }));
  const ordered = turned.filter(({ outward }) => outward[1] > 0).sort((a, b) => a.outward[0] - b.outward[0]);
  /** Reached ranges, by the outer end of their cells. */
  const ends = new Map<number, Range[]>();
  const reached: PoseCell[] = [];
  for (const { cell, along, outward } of ordered) {
    const before = outward[0] <= 0 ? [stem] : (ends.get(outward[0]) ?? []);
    if (!covers(before, along)) continue;
    reached.push(cell);
    const beside = ends.get(outward[1]) ?? [];
    beside.push(along);
    ends.set(outward[1], beside);
  }
  return reached;
}

/** Whether some ranges cover another one without a gap. */
function covers(ranges: readonly Range[], [from, to]: Range): boolean {
  let at = from;
  for (const range of [...ranges].sort((a, b) => a[0] - b[0]))
    if (range[0] <= at) at = Math.max(at, range[1]);
  return at >= to;
}
