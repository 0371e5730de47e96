import { addScaled, cross, dot, length, scale, sub, type Vec3 } from './vec.ts';

/** Maximum rounds of the search. Each round adds one direction outside the last cap; few rounds are needed. */
const MAX_ROUNDS = 200;
/** Cosines that differ by less than this are equal, within the rounding of unit vectors. */
const SAME = 1e-14;

/**
 * Centre of the smallest spherical cap that contains all directions (unit vectors): the unit vector whose largest
 * angle to them is smallest. If `square` (a unit vector) is given, the centre is perpendicular to it. Undefined if no
 * cap under 90 degrees contains them. At most three directions define the optimum. As in linear programming, each
 * round adds the direction furthest outside.
 */
export function smallestCap(directions: readonly Vec3[], square?: Vec3): Vec3 | undefined {
  let best = bestOf(directions.slice(0, 1), square);
  for (let round = 0; round < MAX_ROUNDS && best !== undefined; round++) {
    const out = furthest(directions, best.centre);
    if (dot(out, best.centre) >= best.cosine - SAME) break;
    const next = bestOf([...best.support, out], square);
    // Each round needs a larger cap. A cap that is not larger is due to rounding.
    if (next !== undefined && next.cosine >= best.cosine) break;
    best = next;
  }
  return best?.centre;
}

interface Centre {
  centre: Vec3;
  /** Smallest cosine to the directions that it was computed for. */
  cosine: number;
  /** The directions that define the cap: all at the same angle from the centre. */
  support: readonly Vec3[];
}

const leastCosine = (directions: readonly Vec3[], centre: Vec3): number =>
  directions.reduce((least, one) => Math.min(least, dot(one, centre)), 1);

const furthest = (directions: readonly Vec3[], centre: Vec3): Vec3 =>
  directions.reduce((far, one) => (dot(one, centre) < dot(far, centre) ? one : far));

/** The best centre for at most four directions; undefined if none is within 90 degrees of all. */
function bestOf(directions: readonly Vec3[], square: Vec3 | undefined): Centre | undefined {
  let best: Centre | undefined;
  for (const support of subsets(directions, square === undefined ? 3 : 2)) {
    const along = equallyFar(support, square);
    const size = length(along);
    if (!(size > 0)) continue;
    for (const sign of [1, -1]) {
      const centre = scale(along, sign / size);
      const cosine = leastCosine(directions, centre);
      if (cosine > 0 && (best === undefined || cosine > best.cosine + SAME))
        best = { centre, cosine, support };
    }
  }
  return best;
}

function subsets(directions: readonly Vec3[], most: number): Vec3[][] {
  let all: Vec3[][] = [[]];
  for (const one of directions)
    all = [...all, ...all.filter((some) => some.length < most).map((some) => [...some, one])];
  return all.filter((some) => some.length > 0).sort((a, b) => a.length - b.length);
}

/** A vector at equal angles to each of one to three directions, with the smallest such angle. */
function equallyFar([a, b, c]: readonly Vec3[], square: Vec3 | undefined): Vec3 {
  if (square !== undefined)
    return b === undefined ? addScaled(a, square, -dot(a, square)) : cross(square, sub(a, b));
  if (b === undefined) return a;
  if (c === undefined) return addScaled(a, b, 1);
  return cross(sub(b, a), sub(c, a));
}
