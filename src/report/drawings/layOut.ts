import type { LengthUnit } from '../figures.ts';
import {
  type Dimension,
  type DimensionLine,
  dimensionWords,
  drawExtension,
  drawInclination,
  drawLine,
  type Linear,
  spaceAlong,
  wordsArea,
} from './dimension.ts';
import type { Drawing, GuideLine } from './drawing.ts';
import { INK } from './ink.ts';
import { lanesFor } from './lanes.ts';
import type { Point } from './ontoScreen.ts';
import { CENTRE_DASHES, fitted, Ink, moved, place, textWidth, WIDE_MM } from './paperInk.ts';
import { spread } from './partNames.ts';
import type { Box } from './path.ts';

/** Distances on paper, mm: from the view to the first lane, between lanes, and from the view to the names. */
const FIRST_LANE_MM = 8;
const LANE_MM = 6.5;
const TO_NAMES_MM = 7;
const NAME_MM = 2.6;
const NAME_PITCH_MM = 4.6;
const LONGEST_NAME_MM = 36;
const SHORTEST_NAME_MM = 18;
/** A dimension beside its part moves away from it until it meets no other, by this many lanes at most. */
const MOST_STEPS = 4;
const OVERHANG_MM = 16;
/** Run by rise below which a dimension reads upward, whichever way it leans: 15°. */
const STEEP = 0.27;
/** Height above the view of an angle's arc. */
const ARC_MM = 8;

type Side = 'above' | 'below' | 'left' | 'right';

/** A drawing on paper at a scale of 1 to `ratio`; the vehicle's origin on the view is at 0, 0. */
export function layOut(drawing: Drawing, ratio: number, unit: LengthUnit): Ink {
  const ink = new Ink();
  const onPaper = ([x, y]: Point): Point => [x / ratio, y / ratio];
  const view: Box = {
    left: drawing.box.left / ratio,
    top: drawing.box.top / ratio,
    width: drawing.box.width / ratio,
    height: drawing.box.height / ratio,
  };
  const corners: Point[] = [
    [view.left, view.top],
    [view.left + view.width, view.top + view.height],
  ];
  ink.reach(...corners);
  ink.mark(`<g transform="scale(${1 / ratio})" stroke-linejoin="round">\n${drawing.parts(ratio)}\n</g>`);
  drawGuides(ink, drawing.guides, onPaper);
  const words = (dimension: Dimension) => dimensionWords(dimension, unit, ratio);
  for (const one of drawing.dimensions)
    if (one.kind === 'inclination')
      drawInclination(ink, {
        id: one.id,
        foot: onPaper(one.foot),
        through: onPaper(one.through),
        words: words(one),
        topY: view.top - ARC_MM,
      });
  const linear = drawing.dimensions.filter((one): one is Linear => one.kind === 'linear');
  const heights = linear
    .filter(({ lane }) => lane === 'left' || lane === 'right')
    .flatMap(({ a, b }) => [onPaper(a)[1], onPaper(b)[1]]);
  const reach = drawNames(ink, drawing, onPaper, view, heights);
  for (const one of linear)
    if (typeof one.lane === 'object') drawBeside(ink, one, onPaper, words(one), ratio);
  const guideYs = drawing.guides.flatMap(({ a, b }) => [onPaper(a)[1], onPaper(b)[1]]);
  for (const side of ['left', 'right', 'above', 'below'] as const) {
    const edge = {
      left: Math.min(view.left, reach[0]),
      right: Math.max(view.left + view.width, reach[1]),
      above: Math.min(view.top, ...guideYs),
      below: Math.max(view.top + view.height, ...guideYs),
    }[side];
    drawLanes(
      ink,
      linear.filter(({ lane }) => lane === side),
      { side, edge, onPaper, words },
    );
  }
  return ink;
}

/** Draws dimensions in lanes at one side of the view. `edge`: where the lanes begin. */
function drawLanes(
  ink: Ink,
  dimensions: readonly Linear[],
  {
    side,
    edge,
    onPaper,
    words,
  }: { side: Side; edge: number; onPaper(p: Point): Point; words(one: Linear): string },
): void {
  const across = side === 'above' || side === 'below';
  const outward = side === 'above' || side === 'left' ? -1 : 1;
  /** Reading direction: to the right, or upward. */
  const sense = across ? 1 : -1;
  const along = across ? 0 : 1;
  const ends = dimensions.map(({ a, b }) => {
    const both = [onPaper(a), onPaper(b)];
    return sense * (both[1][along] - both[0][along]) >= 0 ? both : both.reverse();
  });
  const spans = ends.map(([from, to], i): [number, number] => {
    const length = Math.abs(to[along] - from[along]);
    const [start, end] = spaceAlong(length, words(dimensions[i]));
    const first = sense * from[along];
    return [first + start, first + end];
  });
  lanesFor(spans).forEach((lane, i) => {
    const at = edge + outward * (FIRST_LANE_MM + lane * LANE_MM);
    const onLane = (p: Point): Point => (across ? [p[0], at] : [at, p[1]]);
    const [from, to] = ends[i];
    drawExtension(ink, from, onLane(from));
    drawExtension(ink, to, onLane(to));
    drawLine(ink, {
      id: dimensions[i].id,
      from: onLane(from),
      to: onLane(to),
      words: words(dimensions[i]),
    });
  });
}

/** Draws a dimension beside the line between its two points. */
function drawBeside(
  ink: Ink,
  { id, a, b, lane }: Linear,
  onPaper: (p: Point) => Point,
  words: string,
  ratio: number,
): void {
  if (typeof lane !== 'object') return;
  const [one, other] = [onPaper(a), onPaper(b)];
  const [dx, dy] = [other[0] - one[0], other[1] - one[1]];
  const length = Math.hypot(dx, dy);
  if (length === 0) return;
  const [x, y] = onPaper(lane.from);
  const normal: Point = [-dy / length, dx / length];
  const offsetMm = lane.offsetMm + (lane.clearMm ?? 0) / ratio;
  const isThere = (x - one[0]) * normal[0] + (y - one[1]) * normal[1] > 0;
  // Read from below or from the right.
  const forward = Math.abs(dx) < STEEP * Math.abs(dy) ? dy < 0 : dx > 0;
  const [from, to] = forward ? [one, other] : [other, one];
  const shifted = (p: Point, steps: number) =>
    moved(p, normal, (isThere ? -1 : 1) * (offsetMm + steps * LANE_MM));
  const line = (steps: number): DimensionLine => ({
    id,
    from: shifted(from, steps),
    to: shifted(to, steps),
    words,
    overhangMm: OVERHANG_MM,
  });
  const free = Array.from({ length: MOST_STEPS + 1 }, (_, i) => i).find(
    (i) => !ink.isTaken(wordsArea(line(i))),
  );
  const steps = free ?? 0;
  drawExtension(ink, from, shifted(from, steps));
  drawExtension(ink, to, shifted(to, steps));
  drawLine(ink, line(steps));
}

/** Draws centre lines and the ground. */
function drawGuides(ink: Ink, guides: readonly GuideLine[], onPaper: (p: Point) => Point): void {
  for (const { kind, a, b, words } of guides) {
    const [from, to] = [onPaper(a), onPaper(b)];
    ink.line([from, to], kind === 'ground' ? { widthMm: WIDE_MM } : { dashes: CENTRE_DASHES });
    if (words === undefined) continue;
    if (kind === 'ground')
      ink.text(words, [to[0], to[1] + NAME_MM], { sizeMm: NAME_MM, anchor: 'end', hides: true });
    else ink.text(words, [from[0] - 0.8, from[1] - 5], { sizeMm: NAME_MM, turnDeg: -90, hides: true });
  }
}

/**
 * Draws the names of parts in a column at each side of the view, with leaders. Names without room are left out. Returns how
 * far the columns reach to the left and to the right.
 */
function drawNames(
  ink: Ink,
  { names, guides }: Drawing,
  onPaper: (p: Point) => Point,
  view: Box,
  blocked: readonly number[],
): [number, number] {
  // As many names at each side.
  const across = names.map(({ anchor }) => onPaper(anchor)[0]).sort((p, q) => p - q);
  const middle = across[across.length >> 1] ?? 0;
  const beside = guides
    .filter(({ words }) => words === undefined)
    .flatMap(({ a, b }) => [onPaper(a)[0], onPaper(b)[0]]);
  const [left, right] = [Math.min(view.left, ...beside), Math.max(view.left + view.width, ...beside)];
  const reached: [number, number] = [left, right];
  for (const side of [-1, 1] as const) {
    const x = side < 0 ? left - TO_NAMES_MM : right + TO_NAMES_MM;
    // Names do not run over a line that is further out, such as the vehicle's centre line.
    const room = guides
      .map(({ a, b }) => side * (onPaper(a)[0] - x) - 0.5 - (onPaper(a)[0] === onPaper(b)[0] ? 0 : Infinity))
      .filter((mm) => mm > 0);
    const most = Math.max(SHORTEST_NAME_MM, Math.min(LONGEST_NAME_MM, ...room));
    const column = names
      .map(({ words, anchor }) => ({ words: fitted(words, most, NAME_MM), at: onPaper(anchor) }))
      .filter(({ at }) => (at[0] < middle ? -1 : 1) === side)
      // Of two at one height, the further one comes first, so that their leaders do not cross.
      .sort((p, q) => p.at[1] - q.at[1] || side * (p.at[0] - q.at[0]));
    const heights = spread(
      column.map(({ at }) => at[1]),
      NAME_PITCH_MM,
      [Math.min(view.top, ...column.map(({ at }) => at[1])) - NAME_PITCH_MM, view.top + view.height],
      blocked,
    );
    column.forEach(({ words, at }, i) => {
      const y = heights[i];
      if (y === undefined) return;
      ink.line([[x - side, y], at]);
      ink.mark(`<circle cx="${place(at).replace(' ', '" cy="')}" r="0.5" fill="${INK}"/>`);
      ink.text(words, [x, y + 0.35 * NAME_MM], {
        sizeMm: NAME_MM,
        anchor: side < 0 ? 'end' : 'start',
        hides: true,
      });
      const end = x + side * textWidth(words, NAME_MM);
      if (side < 0) reached[0] = Math.min(reached[0], end);
      else reached[1] = Math.max(reached[1], end);
    });
  }
  return reached;
}
