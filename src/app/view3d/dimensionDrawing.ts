/** A place on the screen, px from the upper left. */
export interface Place {
  x: number;
  y: number;
}

export interface DimensionDrawing {
  /** SVG path: the line, its arrowheads, and the leader to the label. */
  path: string;
  labelAt: Place;
}

const ARROW_PX = 8;
const ARROW_HALF_WIDTH_PX = 3;
/** Below this length the arrowheads are outside and point in. */
const INSIDE_PX = 3.2 * ARROW_PX;
const TAIL_PX = 18;
const LABEL_OFF_PX = 40;

const at = (p: Place, d: Place, s: number): Place => ({ x: p.x + s * d.x, y: p.y + s * d.y });
const text = ({ x, y }: Place) => `${x.toFixed(1)} ${y.toFixed(1)}`;

function arrow(tip: Place, along: Place): string {
  const base = at(tip, along, -ARROW_PX);
  const side = { x: -along.y, y: along.x };
  return `M${text(tip)}L${text(at(base, side, ARROW_HALF_WIDTH_PX))}L${text(at(base, side, -ARROW_HALF_WIDTH_PX))}Z`;
}

/** Engineering-style dimension between two places, with its label on a leader. */
export function dimensionDrawing(a: Place, b: Place): DimensionDrawing {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const length = Math.hypot(dx, dy);
  const along = length > 1e-6 ? { x: dx / length, y: dy / length } : { x: 1, y: 0 };
  const back = { x: -along.x, y: -along.y };
  const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
  // The label is on the upper side on the screen, where a hand on the pointer does not cover it.
  const side = along.x > 0 ? { x: along.y, y: -along.x } : { x: -along.y, y: along.x };
  const labelAt = at(middle, side, LABEL_OFF_PX);
  const leader = `M${text(middle)}L${text(at(middle, side, LABEL_OFF_PX - 12))}`;
  const line =
    length >= INSIDE_PX
      ? `M${text(a)}L${text(b)}${arrow(b, along)}${arrow(a, back)}`
      : `M${text(at(a, back, TAIL_PX))}L${text(a)}${arrow(a, along)}M${text(b)}L${text(at(b, along, TAIL_PX))}${arrow(b, back)}`;
  return { path: line + leader, labelAt };
}

const TICK_PX = 7;
const LIT_LABEL_OFF_PX = 18;

/** Line through at least two places, with a tick across each end and the label beside its middle. */
export function tickedLine(places: readonly Place[]): DimensionDrawing {
  const last = places.length - 1;
  const tick = (p: Place, square: Place) =>
    `M${text(at(p, square, -TICK_PX))}L${text(at(p, square, TICK_PX))}`;
  const [before, after] = [places[(last - 1) >> 1], places[(last >> 1) + 1]];
  const square = squareTo(before, after);
  const up = square.y < 0 || (square.y === 0 && square.x > 0) ? square : { x: -square.x, y: -square.y };
  // Beside a vertical line the label needs a larger offset than above a level one.
  const off = LIT_LABEL_OFF_PX + 26 * Math.abs(up.x);
  const middle = { x: (before.x + after.x) / 2, y: (before.y + after.y) / 2 };
  const ends =
    tick(places[0], squareTo(places[0], places[1])) +
    tick(places[last], squareTo(places[last - 1], places[last]));
  return { path: `M${places.map(text).join('L')}${ends}`, labelAt: at(middle, up, off) };
}

/** Unit direction square to the line between two places; an arbitrary one if they coincide. */
function squareTo(a: Place, b: Place): Place {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  return length > 1e-6 ? { x: -(b.y - a.y) / length, y: (b.x - a.x) / length } : { x: 0, y: 1 };
}
