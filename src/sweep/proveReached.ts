import { type PoseCell, type Range, SCALE } from './proveCells.ts';

/** A cell as it lies along the way that is gone first, from ride height in both senses, and along the one that follows. */
interface Lying {
  cell: PoseCell;
  along: Range;
  /** From ride height or straight ahead outward. */
  outward: Range;
}

/**
 * Of enclosed cells those of which every pose is reached from ride height through enclosed cells: by travel straight ahead
 * and then by steer at that travel, or by steer at ride height and then by travel at that steer. These are ways that
 * `solvePose` tries (`WAYS`), so that it reaches every pose of these cells; of others it may come to a lock-out on
 * its way, though the mechanism runs on in them. `leastMm`, `mostMm`: ends of the travel that is cut into cells.
 */
export function reachedCells(cells: readonly PoseCell[], leastMm: number, mostMm: number): Set<PoseCell> {
  const rideHeight = (SCALE * -leastMm) / (mostMm - leastMm);
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
  for (const lying of [travelFirst, steerFirst]) {
    const stem = stemOf(lying);
    for (const sense of [1, -1]) for (const cell of outwardFrom(stem, lying, sense)) reached.add(cell);
  }
  return reached;
}

const holds = ([from, to]: Range, x: number): boolean => from <= x && x <= to;

/** How far one can go first through cells, to either side of 0. */
function stemOf(lying: readonly Lying[]): Range {
  const onLine = lying.filter(({ outward }) => holds(outward, 0));
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

/** The cells that are reached when one goes on outward from the stem, in one sense. */
function outwardFrom(stem: Range, lying: readonly Lying[], sense: number): PoseCell[] {
  const turned =
    sense > 0
      ? lying
      : lying.map((one) => ({ ...one, outward: [-one.outward[1], -one.outward[0]] as const }));
  const ordered = turned.filter(({ outward }) => outward[1] > 0).sort((a, b) => a.outward[0] - b.outward[0]);
  /** By the outer end, what is reached along it. */
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

/** Whether ranges cover another one with no gap. */
function covers(ranges: readonly Range[], [from, to]: Range): boolean {
  let at = from;
  for (const range of [...ranges].sort((a, b) => a[0] - b[0]))
    if (range[0] <= at) at = Math.max(at, range[1]);
  return at >= to;
}
