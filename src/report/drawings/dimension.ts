import { angle, decimal, type LengthUnit, MM_PER_UNIT } from '../figures.ts';
import { INK } from './ink.ts';
import type { Point } from './ontoScreen.ts';
import { type Ink, moved, NARROW_MM, place, textArea, textWidth } from './paperInk.ts';

/** Parts of a dimension on paper, mm. Proportions as in ISO 129-1 (from memory): closed filled arrowheads. */
const ARROW_MM = 2.5;
const ARROW_HALF_MM = 0.45;
const GAP_MM = 0.8;
const BEYOND_MM = 1.6;
const TAIL_MM = 5;
const ABOVE_LINE_MM = 0.9;
/** Less than this, arrowheads stand outside and point inward. */
const LEAST_INSIDE_MM = 2 * ARROW_MM + 1.5;
/** A line that is this much off its value on paper is marked: the length is not parallel to the sheet. */
const SEEN_TRUE_MM = 0.01;

interface Named {
  /** Key of the dimension: `halfTrack`. */
  id: string;
  name: string;
  /** Whether a value that it depends on is assumed. */
  assumed: boolean;
}

/** A length between two points of a view; places are mm of the vehicle on the view. */
export interface Linear extends Named {
  kind: 'linear';
  a: Point;
  b: Point;
  /**
   * Place of its line: in a lane outside the view, above or below for the distance across the view, left or right for the
   * upright one; or beside the line from a to b, on the side that `from` is not on, `offsetMm` of paper and `clearMm` of the
   * vehicle away from it.
   */
  lane: 'above' | 'below' | 'left' | 'right' | { from: Point; offsetMm: number; clearMm?: number };
  /** The true length, mm. */
  valueMm: number;
  sign?: '' | 'Ø ';
}

/** The angle of a line in the view from upright. */
export interface Inclination extends Named {
  kind: 'inclination';
  /** Where the line meets the ground. */
  foot: Point;
  /** A point above on the line. */
  through: Point;
  valueDeg: number;
}

export type Dimension = Linear | Inclination;

/** A length as a drawing shows it: to 0.01 mm or 0.001 in, without zeros at the end; the unit is on the sheet. */
const lengthOnSheet = (mm: number, unit: LengthUnit): string =>
  decimal(mm / MM_PER_UNIT[unit], unit === 'mm' ? 2 : 3).replace(/\.?0+$/, '');

/** Length of the line of a dimension on the view, mm of the vehicle. */
function drawnMm({ a, b, lane }: Linear): number {
  const [across, down] = [Math.abs(b[0] - a[0]), Math.abs(b[1] - a[1])];
  if (typeof lane === 'object') return Math.hypot(across, down);
  return lane === 'above' || lane === 'below' ? across : down;
}

/** Whether the line of a dimension is as long as its value at a scale of 1 to `ratio`. */
const isSeenTrue = (dimension: Linear, ratio: number): boolean =>
  Math.abs(drawnMm(dimension) - Math.abs(dimension.valueMm)) <= SEEN_TRUE_MM * ratio;

/** The words of a dimension: name, value, and marks for an assumed value and for a length that is not seen true. */
export function dimensionWords(dimension: Dimension, unit: LengthUnit, ratio: number): string {
  const { name, assumed } = dimension;
  const value =
    dimension.kind === 'inclination'
      ? angle(dimension.valueDeg, 2).replace(/\.?0+°$/, '°')
      : `${dimension.sign ?? ''}${lengthOnSheet(dimension.valueMm, unit)}`;
  const slanted = dimension.kind === 'linear' && !isSeenTrue(dimension, ratio);
  return `${name} ${value}${assumed ? '*' : ''}${slanted ? '†' : ''}`;
}

/** A dimension's line from one end to the other, with its words. Paper. */
export interface DimensionLine {
  id: string;
  from: Point;
  to: Point;
  words: string;
  /** By how much the words may be longer than the line before they stand beside it; in a lane not at all. */
  overhangMm?: number;
}

/** Start and end of the space that a dimension's line with its words takes along the line, mm from the line's start. */
export function spaceAlong(lengthMm: number, words: string, overhangMm = -1): [number, number] {
  const inside = lengthMm >= LEAST_INSIDE_MM;
  const width = textWidth(words);
  const tail = inside ? 0 : TAIL_MM;
  if (width <= lengthMm + overhangMm) return [-tail, lengthMm + tail];
  return [-tail, lengthMm + Math.max(tail, 1) + width + 1];
}

/** Where a dimension's words are: the middle of their base line, and the direction of reading. */
function wordsPlace({ from, to, words, overhangMm = -1 }: DimensionLine): {
  middle: Point;
  along: Point;
  lengthMm: number;
} {
  const lengthMm = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const along: Point = lengthMm === 0 ? [1, 0] : [(to[0] - from[0]) / lengthMm, (to[1] - from[1]) / lengthMm];
  const [, end] = spaceAlong(lengthMm, words, overhangMm);
  const width = textWidth(words);
  const at = width <= lengthMm + overhangMm ? lengthMm / 2 : end - 1 - width / 2;
  const over: Point = [along[1], -along[0]];
  return { middle: moved(moved(from, along, at), over, ABOVE_LINE_MM), along, lengthMm };
}

/** Corners of the area that a dimension's words take. */
export function wordsArea(line: DimensionLine): Point[] {
  const { middle, along } = wordsPlace(line);
  return textArea(line.words, middle, { anchor: 'middle', turnDeg: turnOf(along) });
}

const turnOf = ([x, y]: Point): number => (Math.atan2(y, x) * 180) / Math.PI;

/** Draws a dimension's line with arrowheads at its ends and its words over it, read from below or from the right. */
export function drawLine(ink: Ink, line: DimensionLine): void {
  const { id, from, to, words, overhangMm } = line;
  const { middle, along, lengthMm } = wordsPlace(line);
  const inside = lengthMm >= LEAST_INSIDE_MM;
  const [start, end] = spaceAlong(lengthMm, words, overhangMm);
  ink.mark(`<g class="dimension" data-dimension="${id}">`);
  ink.line([from, to]);
  if (start < 0) ink.line([moved(from, along, start), from]);
  if (end > lengthMm) ink.line([to, moved(to, along, end - lengthMm)]);
  arrow(ink, from, along, inside ? 1 : -1);
  arrow(ink, to, along, inside ? -1 : 1);
  ink.mark('</g>');
  ink.take([from, to]);
  ink.text(words, middle, { anchor: 'middle', turnDeg: turnOf(along), hides: true });
}

/** An arrowhead with its tip at a point; its body lies along the direction, times `sense`. */
function arrow(ink: Ink, tip: Point, along: Point, sense: 1 | -1): void {
  const base = moved(tip, along, sense * ARROW_MM);
  const across: Point = [-along[1], along[0]];
  ink.fill([tip, moved(base, across, ARROW_HALF_MM), moved(base, across, -ARROW_HALF_MM)]);
}

/** The line from a point of the view to the end of a dimension's line, and a little beyond. */
export function drawExtension(ink: Ink, from: Point, to: Point): void {
  const lengthMm = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (lengthMm <= GAP_MM) return;
  const along: Point = [(to[0] - from[0]) / lengthMm, (to[1] - from[1]) / lengthMm];
  ink.line([moved(from, along, GAP_MM), moved(to, along, BEYOND_MM)]);
}

/**
 * Draws the angle between the upright through a foot and a line through it, at a height on paper above both: its arc with
 * arrowheads, the upright, and its words at the other side of the upright.
 */
export function drawInclination(
  ink: Ink,
  {
    id,
    foot,
    through,
    words,
    topY,
  }: { id: string; foot: Point; through: Point; words: string; topY: number },
): void {
  const radius = foot[1] - topY;
  const leanRad = Math.atan2(through[0] - foot[0], foot[1] - through[1]);
  const at = (rad: number): Point => [foot[0] + radius * Math.sin(rad), foot[1] - radius * Math.cos(rad)];
  const [low, high] = [Math.min(0, leanRad), Math.max(0, leanRad)];
  const inside = radius * (high - low) >= LEAST_INSIDE_MM;
  const tailRad = inside ? 0 : TAIL_MM / radius;
  const arc = (from: number, to: number) =>
    `M${place(at(from))}A${place([radius, radius])} 0 0 1 ${place(at(to))}`;
  ink.line([foot, moved(at(0), [0, -1], BEYOND_MM)]);
  ink.line([foot, moved(at(leanRad), [Math.sin(leanRad), -Math.cos(leanRad)], BEYOND_MM)]);
  ink.mark(
    `<g class="dimension" data-dimension="${id}"><path d="${arc(low, high)}" fill="none" stroke="${INK}" stroke-width="${NARROW_MM}"/>`,
  );
  if (!inside)
    ink.mark(
      `<path d="${arc(low - tailRad, low)}${arc(high, high + tailRad)}" fill="none" stroke="${INK}" stroke-width="${NARROW_MM}"/>`,
    );
  const tangent = (rad: number): Point => [Math.cos(rad), Math.sin(rad)];
  arrow(ink, at(low), tangent(low), inside ? 1 : -1);
  arrow(ink, at(high), tangent(high), inside ? -1 : 1);
  ink.mark('</g>');
  // On the side of the upright that the line does not lean to.
  const side = leanRad > 0 ? -1 : 1;
  ink.text(words, [foot[0] + side * (inside ? 1.5 : TAIL_MM + 1), topY + 1], {
    anchor: side > 0 ? 'start' : 'end',
    hides: true,
  });
}
