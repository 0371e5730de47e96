import type { Point } from './ontoScreen.ts';
import { type Box, boxAround } from './path.ts';

/** A name with the place on the view that its leader points to. */
export interface PartName {
  words: string;
  anchor: Point;
}

/** What a part covers on a view. */
export interface Covering {
  loops: readonly (readonly Point[])[];
  box: Box;
}

export const coveringOf = (loops: readonly (readonly Point[])[]): Covering => ({
  loops,
  box: boxAround(loops.flat()),
});

/** Far above the rounding of heights, far below what can be seen. */
const ROUNDING = 1e-6;

/** Points tried along each side of a part's box. */
const GRID = 26;

/**
 * A place well inside what a part covers and no other part covers: of a grid of such points, one that is furthest from
 * every point that is not. Undefined if none is found.
 */
export function anchorIn(part: Covering, others: readonly Covering[]): Point | undefined {
  const { left, top, width, height } = part.box;
  const near = others.filter((other) => overlap(other.box, part.box));
  const free: Point[] = [];
  const taken: Point[] = [];
  for (let i = -1; i <= GRID; i++)
    for (let j = -1; j <= GRID; j++) {
      const p: Point = [left + ((i + 0.5) * width) / GRID, top + ((j + 0.5) * height) / GRID];
      (isCovered(p, part) && !near.some((other) => isCovered(p, other)) ? free : taken).push(p);
    }
  let best: { p: Point; roomSq: number } | undefined;
  for (const p of free) {
    let roomSq = Infinity;
    for (const q of taken) roomSq = Math.min(roomSq, (p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2);
    if (best === undefined || roomSq > best.roomSq) best = { p, roomSq };
  }
  return best?.p;
}

export const overlap = (a: Box, b: Box): boolean =>
  a.left < b.left + b.width &&
  b.left < a.left + a.width &&
  a.top < b.top + b.height &&
  b.top < a.top + a.height;

/** Whether the loops wind around a point. */
function isCovered([x, y]: Point, { loops, box }: Covering): boolean {
  if (x < box.left || y < box.top || x > box.left + box.width || y > box.top + box.height) return false;
  let winding = 0;
  for (const loop of loops)
    for (let i = 0; i < loop.length; i++) {
      const [x0, y0] = loop[i];
      const [x1, y1] = loop[(i + 1) % loop.length];
      if (y0 > y !== y1 > y && x < x0 + ((y - y0) * (x1 - x0)) / (y1 - y0)) winding += y1 > y0 ? 1 : -1;
    }
  return winding !== 0;
}

/**
 * Heights of the names of one column, from above to below in the order of `wanted`, which ascends: each as near to its
 * wanted height as its neighbours and the blocked heights let it. Undefined for names that find no room between `top` and
 * `bottom`.
 */
export function spread(
  wanted: readonly number[],
  pitch: number,
  [top, bottom]: readonly [number, number],
  blocked: readonly number[],
): (number | undefined)[] {
  const ideal = apartBy(wanted, pitch);
  const half = (pitch / 2) * (1 + ROUNDING);
  const slots = [...ideal, ...blocked.flatMap((b) => [b - half, b + half]), bottom];
  for (let y = top; y < bottom; y += pitch / 4) slots.push(y);
  const open = slots
    .filter((y) => y >= top && y <= bottom && blocked.every((b) => Math.abs(b - y) > pitch / 2))
    .sort((a, b) => a - b);
  const apart = pitch * (1 - ROUNDING);
  // The lowest heights that leave room for the names below.
  const lowest: (number | undefined)[] = ideal.map(() => undefined);
  let most = Infinity;
  for (let i = ideal.length - 1; i >= 0; i--) {
    lowest[i] = open.findLast((y) => y <= most);
    most = (lowest[i] ?? -Infinity) - apart;
  }
  let least = -Infinity;
  return ideal.map((height, i) => {
    const last = lowest[i];
    const [first, ...others] = open.filter((y) => y >= least && y <= (last ?? Infinity));
    if (first === undefined) return undefined;
    const y = others.reduce(
      (best, one) => (Math.abs(one - height) < Math.abs(best - height) ? one : best),
      first,
    );
    least = y + apart;
    return y;
  });
}

/** Heights at least `pitch` apart with the least sum of squared distances from those wanted, which ascend. */
function apartBy(wanted: readonly number[], pitch: number): number[] {
  // Without the pitch, heights that must not descend: neighbours that would are moved to their mean.
  const pools: { sum: number; count: number }[] = [];
  wanted.forEach((height, i) => {
    let pool = { sum: height - i * pitch, count: 1 };
    for (let last = pools.pop(); last !== undefined; last = pools.pop()) {
      if (last.sum / last.count <= pool.sum / pool.count) {
        pools.push(last);
        break;
      }
      pool = { sum: last.sum + pool.sum, count: last.count + pool.count };
    }
    pools.push(pool);
  });
  return pools
    .flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count))
    .map((height, i) => height + i * pitch);
}
