import type { Place } from '../viewer/dimensionDrawing.ts';

/** A part's name beside the gap: its middle on the screen, its size, and the SVG path from the surface to it. */
export interface TagPlace {
  at: Place;
  width: number;
  height: number;
  leader: string;
}

/** From the surface into the part, where the leader ends in a dot, px. */
const INTO_PX = 7;
const LEADER_PX = 46;
/** Away from the line of the gap, where its own arrows stand, and away from its label. */
const TURN_RAD = 0.75;
const DOT_PX = 2.5;

/**
 * Places the names of the two parts of a gap: each on its own side of it, and below the line, since the dimension's own
 * label stands above. `a` and `b` are the gap's points on the screen, px; sizes those of the names.
 */
export function nameTags(
  a: Place,
  b: Place,
  sizeA: { width: number; height: number },
  sizeB: { width: number; height: number },
): [TagPlace, TagPlace] {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const along = length > 1e-6 ? { x: (b.x - a.x) / length, y: (b.y - a.y) / length } : { x: 1, y: 0 };
  return [tag(a, { x: -along.x, y: -along.y }, sizeA), tag(b, along, sizeB)];
}

function tag(surface: Place, outward: Place, size: { width: number; height: number }): TagPlace {
  const turned = (angle: number): Place => ({
    x: outward.x * Math.cos(angle) - outward.y * Math.sin(angle),
    y: outward.x * Math.sin(angle) + outward.y * Math.cos(angle),
  });
  const ways = [turned(TURN_RAD), turned(-TURN_RAD)];
  // Down on the screen; where both are as far down, to the right.
  const way =
    ways[0].y > ways[1].y + 1e-9 || (Math.abs(ways[0].y - ways[1].y) <= 1e-9 && ways[0].x > 0)
      ? ways[0]
      : ways[1];
  const from = { x: surface.x + INTO_PX * way.x, y: surface.y + INTO_PX * way.y };
  const to = { x: surface.x + LEADER_PX * way.x, y: surface.y + LEADER_PX * way.y };
  const at = {
    x: to.x + way.x * (size.width / 2),
    y: to.y + way.y * (size.height / 2),
  };
  const f = (value: number) => value.toFixed(1);
  const dot = `M${f(from.x - DOT_PX)} ${f(from.y)}a${DOT_PX} ${DOT_PX} 0 1 0 ${2 * DOT_PX} 0a${DOT_PX} ${DOT_PX} 0 1 0 ${-2 * DOT_PX} 0`;
  return { at, ...size, leader: `M${f(from.x)} ${f(from.y)}L${f(to.x)} ${f(to.y)}${dot}` };
}
