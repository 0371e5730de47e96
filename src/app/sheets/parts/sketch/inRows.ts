import type { Rigid } from '../../../../math/rigid.ts';
import { boundsOf, type Drawing, type Point, type Sketch, type SketchDimension } from './sketch.ts';

/** One view of a part about its own origin, before it is placed in the sketch. */
export interface LooseView extends Drawing {
  vehicleFromView: Rigid;
}

/** Width of a sketch per height at which it fills its frame. */
const ACROSS_PER_DOWN = 2;

interface Place {
  at: Point;
  width: number;
  height: number;
}

/**
 * One sketch of several views in order, left to right in rows from the top. The row breaks are those with the largest scale.
 * `gap`: distance between views, mm.
 */
export function inRows(title: string, views: readonly LooseView[], gap: number): Sketch {
  const places = placesInRows(views, gap);
  const moved = views.map((view, i) => movedTo(view, places[i].at, i));
  return {
    title,
    views: views.map(({ vehicleFromView }, i) => ({ at: places[i].at, vehicleFromView })),
    outlines: moved.flatMap(({ outlines }) => outlines),
    axes: moved.flatMap(({ axes }) => axes),
    dimensions: moved.flatMap(({ dimensions }) => dimensions),
  };
}

/** Place of each view's origin for the best choice of row breaks. */
function placesInRows(views: readonly LooseView[], gap: number): Place[] {
  let best: Place[] = [];
  let least = Number.POSITIVE_INFINITY;
  // Bit k: a row ends after view k.
  for (let breaks = 0; breaks < 2 ** (views.length - 1); breaks++) {
    const places = broken(views, gap, breaks);
    const width = Math.max(...places.map((place) => place.width));
    const size = Math.max(width, ACROSS_PER_DOWN * places[places.length - 1].height);
    if (size < least) [best, least] = [places, size];
  }
  return best;
}

/** The same for one choice. `width`: of the row up to the view's right edge; `height`: of all rows down to its own. */
function broken(views: readonly LooseView[], gap: number, breaks: number): Place[] {
  const bounds = views.map(boundsOf);
  const places: Place[] = [];
  let first = 0;
  let top = 0;
  while (first < views.length) {
    let last = first;
    while (last < views.length - 1 && (breaks & (1 << last)) === 0) last++;
    const row = bounds.slice(first, last + 1);
    const above = Math.max(...row.map(([, , , y1]) => y1));
    const below = Math.min(...row.map(([, , y0]) => y0));
    let left = 0;
    for (const [x0, x1] of row) {
      places.push({ at: [left - x0, top - above], width: left + x1 - x0, height: above - below - top });
      left += x1 - x0 + gap;
    }
    top -= above - below + gap;
    first = last + 1;
  }
  return places;
}

function movedTo({ outlines, axes, dimensions }: Drawing, [dx, dy]: Point, view: number): Drawing {
  const move = ([x, y]: Point): Point => [x + dx, y + dy];
  return {
    outlines: outlines.map((outline) => outline.map(move)),
    axes: axes.map(([from, to]): [Point, Point] => [move(from), move(to)]),
    dimensions: dimensions.map(
      ({ from, to, via, ...rest }): SketchDimension => ({
        ...rest,
        from: move(from),
        to: move(to),
        ...(via === undefined ? {} : { via: via.map(move) }),
        view,
      }),
    ),
  };
}
