import { type Point2, pointToSide } from './simplePolygon.ts';

/**
 * A line with some of its corners left out, each of them within `tolerance` of the side that replaces it. The ends are kept.
 * Between two kept corners, the one furthest from the straight line is kept if it is further than the tolerance, and so on
 * (Douglas and Peucker 1973, from memory).
 */
export function thinLine<P extends Point2>(line: readonly P[], tolerance: number): P[] {
  const last = line.length - 1;
  const kept = new Uint8Array(line.length);
  kept[0] = 1;
  kept[last] = 1;
  const open: [number, number][] = [[0, last]];
  for (let range = open.pop(); range !== undefined; range = open.pop()) {
    const [from, to] = range;
    let [index, furthest] = [from, tolerance];
    for (let i = from + 1; i < to; i++) {
      const distance = pointToSide(line[i], line[from], line[to]);
      if (distance > furthest) [index, furthest] = [i, distance];
    }
    if (index === from) continue;
    kept[index] = 1;
    open.push([from, index], [index, to]);
  }
  return line.filter((_, i) => kept[i] === 1);
}

/** A closed outline thinned as `thinLine` does it. An outline that would collapse is returned unchanged. */
export function thinOutline<P extends Point2>(outline: readonly P[], tolerance: number): P[] {
  const [first] = outline;
  const middle = outline.reduce(
    (best, point, i) =>
      pointToSide(point, first, first) > pointToSide(outline[best], first, first) ? i : best,
    0,
  );
  const there = thinLine(outline.slice(0, middle + 1), tolerance);
  const back = thinLine([...outline.slice(middle), first], tolerance);
  const kept = [...there, ...back.slice(1, -1)];
  return kept.length < 3 ? [...outline] : kept;
}
