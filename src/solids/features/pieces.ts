import { distance, dot, length, sub, type Vec3 } from '../../math/vec.ts';
import { type FittedRing, fitRing } from './fitRing.ts';

/** Vertices nearer to each other than this are equal, and nearer to a line are on it, mm. */
const SAME_MM = 2e-3;
/** A smaller turn counts as straight, rad: even the finest circle turns by more between sides. */
const STRAIGHT_RAD = (0.3 * Math.PI) / 180;
/** Greatest turn between sides of a circle, rad. */
const ROUND_RAD = (31 * Math.PI) / 180;
/** Greatest misfit of a circle's corners, mm; their rounding is 1e-4 at a metre. */
const MISFIT_MM = 5e-4;
const LEAST_SIDES = 5;
/** Least number of consecutive gentle turns in a curve. */
const LEAST_TURNS = 3;
const LEAST_SPAN_RAD = Math.PI / 3;
const LEAST_WHOLE_SIDES = 12;
/** Least ratio of an edge of a part to the sides of an adjoining curve. */
const LONGER = 4;

export type Piece =
  | { kind: 'straight'; points: readonly [Vec3, Vec3] }
  | { kind: 'ring'; points: readonly Vec3[]; ring: FittedRing };

/** Splits a line of points into straight edges and circular arcs; sides of other curves are left out. */
export function piecesOf(given: readonly Vec3[], closed: boolean): Piece[] {
  const points = withoutCollinear(given, closed);
  if (closed && points.length >= LEAST_WHOLE_SIDES) {
    const ring = wholeRing(points);
    if (ring !== undefined) return [{ kind: 'ring', points: [...points, points[0]], ring }];
  }
  if (!closed) return partsOf(points);
  if (points.length < 3) return [];
  // Open a closed line at its sharpest turn.
  const turns = points.map((point, i) =>
    turn(points[(i + points.length - 1) % points.length], point, points[(i + 1) % points.length]),
  );
  const first = turns.indexOf(Math.max(...turns));
  return partsOf([...points.slice(first), ...points.slice(0, first + 1)]);
}

/** The points without those on the straight line between their neighbours. */
function withoutCollinear(given: readonly Vec3[], closed: boolean): Vec3[] {
  const apart: Vec3[] = [];
  for (const point of given) {
    const last = apart[apart.length - 1];
    if (last === undefined || distance(last, point) > SAME_MM) apart.push(point);
  }
  if (closed && apart.length > 1 && distance(apart[0], apart[apart.length - 1]) <= SAME_MM) apart.pop();
  const kept: Vec3[] = [];
  apart.forEach((point, i) => {
    const isEnd = !closed && (i === 0 || i === apart.length - 1);
    const before = kept[kept.length - 1] ?? apart[apart.length - 1];
    const after = apart[(i + 1) % apart.length];
    if (isEnd || turn(before, point, after) > STRAIGHT_RAD) kept.push(point);
  });
  return kept;
}

function turn(before: Vec3, at: Vec3, after: Vec3): number {
  const [u, v] = [sub(at, before), sub(after, at)];
  const both = length(u) * length(v);
  return both > 0 ? Math.acos(Math.max(-1, Math.min(1, dot(u, v) / both))) : 0;
}

/** The circle through a closed ring of points; undefined if there is none. */
function wholeRing(points: readonly Vec3[]): FittedRing | undefined {
  const n = points.length;
  const isRound = points.every((p, i) => turn(points[(i + n - 1) % n], p, points[(i + 1) % n]) <= ROUND_RAD);
  const ring = isRound ? fitRing(points, true) : undefined;
  return ring !== undefined && ring.misfitMm <= MISFIT_MM ? ring : undefined;
}

/**
 * The circle of an arc; undefined if there is none. The points between two sides are corners of the polygon inscribed in
 * the circle. The two ends may be anywhere on a side, if another face cut it there.
 */
function arcThrough(points: readonly Vec3[]): FittedRing | undefined {
  const ring = fitRing(points.slice(1, -1), false);
  if (ring === undefined || ring.misfitMm > MISFIT_MM) return undefined;
  const sideRad = ring.spanRad / (points.length - 3);
  if (sideRad > ROUND_RAD) return undefined;
  const { centre, axis, radiusMm } = ring;
  const leastMm = radiusMm * Math.cos(sideRad / 2) - MISFIT_MM;
  const ends = [points[0], points[points.length - 1]];
  const isOn = ends.every((end) => {
    const away = distance(end, centre);
    const off = Math.abs(dot(sub(end, centre), axis));
    return away >= leastMm && away <= radiusMm + MISFIT_MM && off <= MISFIT_MM;
  });
  return isOn ? ring : undefined;
}

function partsOf(points: readonly Vec3[]): Piece[] {
  const pieces: Piece[] = [];
  const sides = points.length - 1;
  /** For each side, whether it belongs to an arc. */
  const inArc = new Uint8Array(Math.max(0, sides));
  for (let i = 0; i + LEAST_SIDES <= sides; ) {
    let best: FittedRing | undefined;
    let to = i + LEAST_SIDES;
    for (; to <= sides; to++) {
      if (turn(points[to - 2], points[to - 1], points[to]) > ROUND_RAD) break;
      const ring = arcThrough(points.slice(i, to + 1));
      if (ring === undefined) break;
      best = ring;
    }
    to -= 1;
    if (best === undefined || best.spanRad < LEAST_SPAN_RAD) {
      i += 1;
      continue;
    }
    pieces.push({ kind: 'ring', points: points.slice(i, to + 1), ring: best });
    inArc.fill(1, i, to);
    i = to;
  }
  const long = (side: number) => distance(points[side], points[side + 1]);
  const isGentle = (i: number) =>
    i > 0 && i < sides && turn(points[i - 1], points[i], points[i + 1]) <= ROUND_RAD;
  /** Whether the line turns gently at a point and at enough neighbours for a curve; one or two turns are a kink. */
  const isCurve = (i: number): boolean => {
    let [from, to] = [i, i];
    while (isGentle(from - 1)) from -= 1;
    while (isGentle(to + 1)) to += 1;
    return isGentle(i) && to - from + 1 >= LEAST_TURNS;
  };
  /** Whether a side is an edge of its own at its neighbour `beside`, not a piece of a curve that continues there. */
  const isEdge = (side: number, beside: number): boolean =>
    beside < 0 ||
    beside >= sides ||
    inArc[beside] === 1 ||
    !isCurve(Math.max(side, beside)) ||
    long(side) >= LONGER * long(beside);
  for (let side = 0; side < sides; side++) {
    if (inArc[side] === 0 && isEdge(side, side - 1) && isEdge(side, side + 1))
      pieces.push({ kind: 'straight', points: [points[side], points[side + 1]] });
  }
  return pieces;
}
