import { type Point2, pointToSide } from './simplePolygon.ts';

/**
 * A closed outline with some of its corners left out, each of them within `toleranceMm` of the side that replaces it. Two
 * far corners are kept; between two kept corners, the one furthest from the straight line is kept if it is further than
 * the tolerance, and so on (Douglas and Peucker 1973, from memory). An outline that would collapse is returned unchanged.
 */
export function thinOutline<P extends Point2>(outline: readonly P[], toleranceMm: number): P[] {
  const count = outline.length;
  const at = (i: number) => outline[i % count];
  const furthest = (from: number, to: number) => {
    let best = { index: from, distanceMm: 0 };
    for (let i = from + 1; i < to; i++) {
      const distanceMm = pointToSide(at(i), at(from), at(to));
      if (distanceMm > best.distanceMm) best = { index: i, distanceMm };
    }
    return best;
  };
  const kept: number[] = [];
  const middle = furthest(0, count).index;
  const open: [number, number][] = [
    [middle, count],
    [0, middle],
  ];
  for (let range = open.pop(); range !== undefined; range = open.pop()) {
    const [from, to] = range;
    const { index, distanceMm } = furthest(from, to);
    if (distanceMm > toleranceMm) open.push([index, to], [from, index]);
    else kept.push(from);
  }
  return kept.length < 3 ? [...outline] : kept.map(at);
}
