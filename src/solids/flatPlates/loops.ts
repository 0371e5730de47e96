import type { CrossSection } from '../modeller.ts';
import { type Point2, pointToSide } from '../simplePolygon.ts';
import type { Loop, PathCorner } from './flatPlate.ts';

/** Chord error with which round edges are modelled before they become arcs, and that of edges that stay polygons, mm. */
export const FINE_CHORD_MM = 0.001;

/** A corner this near the line or circle of its neighbours is on it, mm: the chord error and the rounding of the modeller. */
const ON_MM = 0.0015;

export interface Circle {
  centre: Point2;
  radiusMm: number;
}

/** A region of the plane: one outline and its openings. */
export interface Region {
  outline: Loop;
  openings: readonly Loop[];
  areaMm2: number;
}

/**
 * The connected regions of a cross section, largest first. Corners on one of the `circles` become true arcs; corners on
 * a straight line are left out.
 */
export function regionsOf(section: CrossSection, circles: readonly Circle[]): Region[] {
  return section
    .decompose()
    .map((piece) => {
      const [outer, ...holes] = piece
        .toPolygons()
        .map((polygon) => polygon.map(([x, y]): Point2 => [x, y]))
        .sort((a, b) => Math.abs(polygonAreaMm2(b)) - Math.abs(polygonAreaMm2(a)));
      return {
        outline: loopOf(outer, circles),
        openings: holes.map((hole) => loopOf(hole.toReversed(), circles)),
        areaMm2: piece.area(),
      };
    })
    .sort((a, b) => b.areaMm2 - a.areaMm2);
}

/** A closed polygon as a loop, with true arcs where its corners are on one of the circles. */
function loopOf(polygon: readonly Point2[], circles: readonly Circle[]): Loop {
  const on = (circle: Circle, [x, y]: Point2) =>
    Math.abs(Math.hypot(x - circle.centre[0], y - circle.centre[1]) - circle.radiusMm) <= ON_MM;
  const whole = circles.find((circle) => polygon.every((at) => on(circle, at)));
  if (whole !== undefined) return { kind: 'circle', ...whole };
  const sides = polygon.map((at, i) => {
    const next = polygon[(i + 1) % polygon.length];
    const step = Math.hypot(next[0] - at[0], next[1] - at[1]);
    // A longer side with both ends on a circle is a chord that crosses it.
    return circles.find(
      (circle) => on(circle, at) && on(circle, next) && step < longestChordMm(circle.radiusMm),
    );
  });
  // Starts where two different edges meet, so that no arc is cut in two.
  const first = Math.max(
    0,
    sides.findIndex((circle, i) => circle !== sides.at(i - 1) || circle === undefined),
  );
  const at = (i: number) => polygon[(first + i) % polygon.length];
  const side = (i: number) => sides[(first + i) % polygon.length];
  const corners: PathCorner[] = [];
  for (let i = 0; i < polygon.length; ) {
    const circle = side(i);
    if (circle === undefined) {
      corners.push({ at: at(i), bulge: 0 });
      i++;
      continue;
    }
    let end = i + 1;
    let swept = 0;
    // Half a turn at a time: the bulge of a whole turn is infinite.
    for (; end <= polygon.length && side(end - 1) === circle; end++) {
      const more = turn(circle.centre, at(end - 1), at(end));
      if (Math.abs(swept + more) > Math.PI) break;
      swept += more;
    }
    end--;
    corners.push({ at: at(i), bulge: Math.tan(swept / 4) });
    i = Math.max(end, i + 1);
  }
  return { kind: 'path', corners: withoutStraight(corners) };
}

/** Greatest length of a side of a circle's polygon, with some room, mm: 2 sqrt(2 r e) for the chord error e. */
const longestChordMm = (radiusMm: number): number => 2.1 * Math.sqrt(2 * radiusMm * FINE_CHORD_MM);

/** Angle of the turn from one place to another about a centre, radians, -pi to pi. */
function turn([cx, cy]: Point2, [ax, ay]: Point2, [bx, by]: Point2): number {
  const [ux, uy, vx, vy] = [ax - cx, ay - cy, bx - cx, by - cy];
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}

/** Leaves out corners between two straight segments that are on the line between their neighbours. */
function withoutStraight(corners: readonly PathCorner[]): PathCorner[] {
  const kept = [...corners];
  for (let i = 0; i < kept.length && kept.length > 3; ) {
    const [before, here, after] = [kept.at(i - 1), kept[i], kept[(i + 1) % kept.length]];
    const isStraight = before?.bulge === 0 && here.bulge === 0;
    if (isStraight && pointToSide(here.at, before.at, after.at) < STRAIGHT_MM) kept.splice(i, 1);
    else i++;
  }
  return kept;
}

/** Far below any cut, so that the corners left out of a curve do not add up. */
const STRAIGHT_MM = 1e-5;

/** Signed area of a polygon, mm²: positive anticlockwise. */
export function polygonAreaMm2(polygon: readonly Point2[]): number {
  return polygon.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = polygon[(i + 1) % polygon.length];
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

/** The corners of a loop, with arcs as polygons within `chordMm` of them. */
export function tessellated(loop: Loop, chordMm = FINE_CHORD_MM): Point2[] {
  if (loop.kind === 'circle') {
    const { centre, radiusMm } = loop;
    const n = Math.max(8, Math.ceil(Math.PI / Math.acos(1 - Math.min(1, chordMm / radiusMm))));
    return Array.from({ length: n }, (_, k) => polar(centre, radiusMm, (2 * Math.PI * k) / n));
  }
  const { corners } = loop;
  return corners.flatMap(({ at, bulge }, i) => {
    if (bulge === 0) return [at];
    const { centre, radiusMm, startRad, sweepRad } = arcOf(at, corners[(i + 1) % corners.length].at, bulge);
    const n = Math.max(
      1,
      Math.ceil(Math.abs(sweepRad) / (2 * Math.acos(1 - Math.min(1, chordMm / radiusMm)))),
    );
    return Array.from({ length: n }, (_, k) => polar(centre, radiusMm, startRad + (sweepRad * k) / n));
  });
}

const polar = ([x, y]: Point2, radius: number, angle: number): Point2 => [
  x + radius * Math.cos(angle),
  y + radius * Math.sin(angle),
];

/** The arc of a segment with a bulge; its sweep is positive anticlockwise. */
export function arcOf(from: Point2, to: Point2, bulge: number) {
  const sweepRad = 4 * Math.atan(bulge);
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  // Distance from the middle of the chord to the centre, as a fraction of the chord, to its left.
  const aside = (1 - bulge ** 2) / (4 * bulge);
  const centre: Point2 = [(from[0] + to[0]) / 2 - aside * dy, (from[1] + to[1]) / 2 + aside * dx];
  return {
    centre,
    radiusMm: Math.hypot(from[0] - centre[0], from[1] - centre[1]),
    startRad: Math.atan2(from[1] - centre[1], from[0] - centre[0]),
    sweepRad,
  };
}

/** A loop with each place mapped by a motion of the plane; `mirrors` if the motion turns the plane over. */
export function mappedLoop(loop: Loop, map: (at: Point2) => Point2, mirrors: boolean): Loop {
  if (loop.kind === 'circle') return { ...loop, centre: map(loop.centre) };
  return {
    kind: 'path',
    corners: loop.corners.map(({ at, bulge }) => ({ at: map(at), bulge: mirrors ? -bulge : bulge })),
  };
}

/** Whether a place is inside a loop. */
export function isInLoop([x, y]: Point2, loop: Loop): boolean {
  const polygon = tessellated(loop);
  let inside = false;
  polygon.forEach(([x0, y0], i) => {
    const [x1, y1] = polygon[(i + 1) % polygon.length];
    if (y0 > y !== y1 > y && x < x0 + ((y - y0) * (x1 - x0)) / (y1 - y0)) inside = !inside;
  });
  return inside;
}

/** The smallest box around a loop, arcs included: its least and greatest x and y. */
export function loopBox(loop: Loop): { min: Point2; max: Point2 } {
  const points =
    loop.kind === 'circle' ? extremes(loop.centre, loop.radiusMm) : loop.corners.flatMap(arcPoints);
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { min: [Math.min(...xs), Math.min(...ys)], max: [Math.max(...xs), Math.max(...ys)] };

  function arcPoints({ at, bulge }: PathCorner, i: number, corners: readonly PathCorner[]): Point2[] {
    if (bulge === 0) return [at];
    const { centre, radiusMm, startRad, sweepRad } = arcOf(at, corners[(i + 1) % corners.length].at, bulge);
    return [
      at,
      ...extremes(centre, radiusMm).filter((_, k) => isSwept((k * Math.PI) / 2, startRad, sweepRad)),
    ];
  }
}

/** The points of a circle at 0, 90, 180 and 270 degrees. */
const extremes = ([x, y]: Point2, radiusMm: number): Point2[] => [
  [x + radiusMm, y],
  [x, y + radiusMm],
  [x - radiusMm, y],
  [x, y - radiusMm],
];

/** Distance from a point to the nearest point of a loop, arcs included, mm. */
export function loopGapMm(at: Point2, loop: Loop): number {
  const toCentre = ([x, y]: Point2) => Math.hypot(at[0] - x, at[1] - y);
  if (loop.kind === 'circle') return Math.abs(toCentre(loop.centre) - loop.radiusMm);
  const { corners } = loop;
  return corners.reduce((least, { at: from, bulge }, i) => {
    const to = corners[(i + 1) % corners.length].at;
    if (bulge === 0) return Math.min(least, pointToSide(at, from, to));
    const { centre, radiusMm, startRad, sweepRad } = arcOf(from, to, bulge);
    const seen = Math.atan2(at[1] - centre[1], at[0] - centre[0]);
    const gap = isSwept(seen, startRad, sweepRad)
      ? Math.abs(toCentre(centre) - radiusMm)
      : Math.min(toCentre(from), toCentre(to));
    return Math.min(least, gap);
  }, Number.POSITIVE_INFINITY);
}

/** Whether an angle is within an arc. */
function isSwept(angleRad: number, startRad: number, sweepRad: number): boolean {
  const from = ((angleRad - startRad) * Math.sign(sweepRad)) % (2 * Math.PI);
  return (from + 2 * Math.PI) % (2 * Math.PI) <= Math.abs(sweepRad);
}
