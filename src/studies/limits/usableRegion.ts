/** The part of travel and steering in which every margin is met and nothing runs out, from the steps of a sweep. */
import type { SweepResult } from '../../sweep/result.ts';
import { type Bound, type Headroom, leastHeadroom } from './headroom.ts';

export interface RegionPoint {
  travelMm: number;
  steer: number;
}

/** A stretch of the region's edge with one bound; `asked`: the end of the travel or lock that the file asks for. */
export interface EdgeStretch {
  bound: Bound | { kind: 'asked' };
  /** Between two steps the edge is where the headroom, interpolated, is 0. */
  points: readonly RegionPoint[];
}

export interface UsableRegion {
  /** Closed edges, the region at the left of each: the first is the outer one, others are those of holes. */
  edges: readonly (readonly EdgeStretch[])[];
  /** Area of travel times steering input as a share of what was asked for, 0 to 1, interpolated between the steps. */
  share: number;
}

/** A stretch that the file does not ask for, with its number in lists and on maps. */
export interface NumberedStretch {
  number: number;
  stretch: EdgeStretch & { bound: Bound };
  /** Where a map shows the number: the middle of the stretch. */
  at: RegionPoint;
}

/** The stretches of a region's edges that end travel or lock sooner than the file asks, numbered from 1. */
export function numberedStretches(region: UsableRegion | undefined): NumberedStretch[] {
  return (region?.edges ?? [])
    .flat()
    .filter((stretch): stretch is NumberedStretch['stretch'] => stretch.bound.kind !== 'asked')
    .map((stretch, k) => ({
      number: k + 1,
      stretch,
      at: stretch.points[Math.floor((stretch.points.length - 1) / 2)],
    }));
}

/** A step of the grid: column along steer, row along travel. */
interface Node {
  row: number;
  column: number;
}
/** Neighbours of a node counter-clockwise, with steer to the right and travel up. */
const SIDES: readonly Node[] = [
  { row: 0, column: 1 },
  { row: 1, column: 0 },
  { row: 0, column: -1 },
  { row: -1, column: 0 },
];

/**
 * The region around ride height, straight ahead: its steps are joined to it by steps in which nothing fails. Undefined if
 * something fails at ride height, straight ahead. `inputAt`: steering input at a steer.
 */
export function usableRegion(
  { travelMm, steer }: Pick<SweepResult, 'travelMm' | 'steer'>,
  headroom: readonly Headroom[],
  inputAt: (steer: number) => number,
): UsableRegion | undefined {
  const [rows, columns] = [travelMm.length, steer.length];
  const least = leastHeadroom(headroom, rows * columns);
  const stepOf = ({ row, column }: Node) => row * columns + column;
  const isInGrid = ({ row, column }: Node) => row >= 0 && row < rows && column >= 0 && column < columns;
  const start = { row: travelMm.indexOf(0), column: steer.indexOf(0) };
  const inside = new Uint8Array(rows * columns);
  const isInside = (node: Node) => isInGrid(node) && inside[stepOf(node)] === 1;
  const open = [start];
  for (let node = open.pop(); node !== undefined; node = open.pop()) {
    if (!isInGrid(node) || isInside(node) || !(least[stepOf(node)] >= 0)) continue;
    inside[stepOf(node)] = 1;
    for (const side of SIDES) open.push(beside(node, side));
  }
  if (!isInside(start)) return undefined;

  const pointOf = ({ row, column }: Node): RegionPoint => ({ travelMm: travelMm[row], steer: steer[column] });
  /** Where the edge crosses the line from a step of the region to the step beside it, and what bounds it there. */
  const crossing = (node: Node, side: Node): { bound: EdgeStretch['bound']; point: RegionPoint } => {
    const next = beside(node, side);
    const from = pointOf(node);
    if (!isInGrid(next)) return { bound: { kind: 'asked' }, point: from };
    const shares = headroom
      .filter(({ left }) => !(left[stepOf(next)] >= 0))
      .map(({ bound, left }) => {
        const [here, there] = [left[stepOf(node)], left[stepOf(next)]];
        return { bound, share: bound.kind === 'lockOut' ? 0 : here / (here - there) };
      })
      .sort((a, b) => a.share - b.share);
    const [{ bound, share }] = shares;
    const to = pointOf(next);
    const between = (a: number, b: number) => a + (b - a) * share;
    return {
      bound,
      point: { travelMm: between(from.travelMm, to.travelMm), steer: between(from.steer, to.steer) },
    };
  };

  const loops = edgeLoops(rows, columns, isInside);
  const edges = loops.map((loop) => stretchesOf(loop.map(([node, side]) => crossing(node, SIDES[side]))));
  const area = (points: readonly RegionPoint[]): number =>
    points.reduce((sum, { travelMm: y, steer: x }, i) => {
      const next = points[(i + 1) % points.length];
      return sum + (inputAt(x) * next.travelMm - inputAt(next.steer) * y) / 2;
    }, 0);
  const ends = [...edges.map((edge) => edge.flatMap(({ points }) => points))].map(area);
  const whole = (travelMm[rows - 1] - travelMm[0]) * (inputAt(steer[columns - 1]) - inputAt(steer[0]));
  return {
    edges,
    share: Math.min(1, Math.max(0, ends.reduce((sum, one) => sum + one, 0) / whole)),
  };
}

const beside = ({ row, column }: Node, side: Node): Node => ({
  row: row + side.row,
  column: column + side.column,
});

/**
 * The edges of a set of grid nodes as closed loops, each a list of nodes and sides beyond which the set ends, with the set at
 * the left. The loop that begins lowest, the outer one, comes first.
 */
function edgeLoops(
  rows: number,
  columns: number,
  isInside: (node: Node) => boolean,
): [node: Node, side: number][][] {
  const done = new Set<number>();
  const keyOf = ({ row, column }: Node, side: number) => (row * columns + column) * 4 + side;
  const loops: [Node, number][][] = [];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++)
      // Every loop has an edge below a node.
      if (
        isInside({ row, column }) &&
        !isInside({ row: row - 1, column }) &&
        !done.has(keyOf({ row, column }, 3))
      ) {
        const loop: [Node, number][] = [];
        let [node, side]: [Node, number] = [{ row, column }, 3];
        while (!done.has(keyOf(node, side))) {
          done.add(keyOf(node, side));
          loop.push([node, side]);
          // With the set at the left of an edge, the way goes on along the side that is next counter-clockwise.
          const along = SIDES[(side + 1) % 4];
          const ahead = beside(node, along);
          const across = beside(ahead, SIDES[side]);
          if (isInside(ahead) && isInside(across)) [node, side] = [across, (side + 3) % 4];
          else if (isInside(ahead)) node = ahead;
          else side = (side + 1) % 4;
        }
        loops.push(loop);
      }
  return loops;
}

const boundKey = (bound: EdgeStretch['bound']): string =>
  bound.kind === 'pair'
    ? `pair ${bound.pair}`
    : bound.kind === 'limit'
      ? `limit ${bound.limit.kind} ${bound.limit.partIndex}`
      : bound.kind;

/** Joins neighbouring crossings of one bound. */
function stretchesOf(
  crossings: readonly { bound: EdgeStretch['bound']; point: RegionPoint }[],
): EdgeStretch[] {
  // Starts where the bound changes, so that no stretch is cut in two.
  const first = crossings.findIndex(
    ({ bound }, i) => boundKey(bound) !== boundKey(crossings.at(i - 1)?.bound ?? bound),
  );
  const turned = [...crossings.slice(Math.max(0, first)), ...crossings.slice(0, Math.max(0, first))];
  const stretches: { bound: EdgeStretch['bound']; points: RegionPoint[] }[] = [];
  for (const { bound, point } of turned) {
    const last = stretches.at(-1);
    if (last !== undefined && boundKey(last.bound) === boundKey(bound)) last.points.push(point);
    else stretches.push({ bound, points: [point] });
  }
  return stretches;
}
