import type { Place } from '../../view3d/dimensionDrawing.ts';

/** A part's name beside the gap: its centre on the screen, its size, and the SVG path of its leader. */
export interface TagPlace {
  at: Place;
  width: number;
  height: number;
  leader: string;
}

/** Depth inside the part at which the leader ends in a dot, px. */
const INTO_PX = 7;
const LEADER_PX = 46;
/** Angle of the leaders to the gap's line, which keeps them off its arrows and label. */
const TURN_RAD = 0.75;
const DOT_PX = 2.5;

/**
 * Places the names of the two parts of a gap: each on its own side and below the line, because the dimension's label is above.
 * `a` and `b`: the gap's points on the screen, px; `sizeA` and `sizeB`: the sizes of the names.
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
  const directions = [turned(TURN_RAD), turned(-TURN_RAD)];
  // The direction further down on the screen; if equal, the one to the right.
  const direction =
    directions[0].y > directions[1].y + 1e-9 ||
    (Math.abs(directions[0].y - directions[1].y) <= 1e-9 && directions[0].x > 0)
      ? directions[0]
      : directions[1];
  const from = { x: surface.x + INTO_PX * direction.x, y: surface.y + INTO_PX * direction.y };
  const to = { x: surface.x + LEADER_PX * direction.x, y: surface.y + LEADER_PX * direction.y };
  const at = {
    x: to.x + direction.x * (size.width / 2),
    y: to.y + direction.y * (size.height / 2),
  };
  const f = (value: number) => value.toFixed(1);
  const dot = `M${f(from.x - DOT_PX)} ${f(from.y)}a${DOT_PX} ${DOT_PX} 0 1 0 ${2 * DOT_PX} 0a${DOT_PX} ${DOT_PX} 0 1 0 ${-2 * DOT_PX} 0`;
  return { at, ...size, leader: `M${f(from.x)} ${f(from.y)}L${f(to.x)} ${f(to.y)}${dot}` };
}
