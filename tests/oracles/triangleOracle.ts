/**
 * Slow distance of two triangles that shares nothing with the fast one: the convex program over convex weights of
 * both triangles' corners. At its solution some corners have weight and the rest have none, so every choice of
 * corners of both triangles is tried. Each choice gives the least-squares point of the two flats through them, by
 * orthogonal columns, and counts only if all weights are within 0..1. A choice with linearly dependent directions is
 * skipped: a smaller choice has the same least distance.
 */

type Triple = readonly [number, number, number];
const CHOICES = [[0], [1], [2], [0, 1], [1, 2], [2, 0], [0, 1, 2]];

const minus = (a: Triple, b: Triple): Triple => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const times = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const plus = (a: Triple, b: Triple, s: number): Triple => [a[0] + s * b[0], a[1] + s * b[1], a[2] + s * b[2]];

/** The x that minimises |w + sum x_k d_k|; undefined if the directions are linearly dependent. */
function leastSquares(w: Triple, directions: readonly Triple[]): number[] | undefined {
  const units: Triple[] = [];
  const upper: number[][] = [];
  for (const direction of directions) {
    let left = direction;
    const column: number[] = new Array(units.length).fill(0);
    for (let pass = 0; pass < 2; pass++) {
      units.forEach((unit, k) => {
        const part = times(unit, left);
        column[k] += part;
        left = plus(left, unit, -part);
      });
    }
    const size = Math.sqrt(times(left, left));
    if (!(size > 1e-13 * Math.sqrt(times(direction, direction)))) return undefined;
    units.push([left[0] / size, left[1] / size, left[2] / size]);
    upper.push([...column, size]);
  }
  const x: number[] = [];
  for (let k = units.length - 1; k >= 0; k--) {
    let value = -times(units[k], w);
    for (let j = k + 1; j < units.length; j++) value -= upper[j][k] * x[j];
    x[k] = value / upper[k][k];
  }
  return x;
}

const mix = (corners: readonly Triple[], weights: readonly number[]): Triple => {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return corners.reduce<Triple>((point, corner, k) => plus(point, corner, weights[k] / sum), [0, 0, 0]);
};

/** Distance of two triangles of nine coordinates each. */
export function slowTriangleDistance(s: ArrayLike<number>, t: ArrayLike<number>): number {
  const cornersOf = (a: ArrayLike<number>): Triple[] =>
    [0, 3, 6].map((k) => [a[k], a[k + 1], a[k + 2]] as const);
  const [ofS, ofT] = [cornersOf(s), cornersOf(t)];
  let best = Infinity;
  for (const i of CHOICES) {
    for (const j of CHOICES) {
      const from = i.map((k) => ofS[k]);
      const to = j.map((k) => ofT[k]);
      const directions = [
        ...from.slice(1).map((corner) => minus(corner, from[0])),
        ...to.slice(1).map((corner) => minus(to[0], corner)),
      ];
      if (directions.length > 3) continue;
      const x = leastSquares(minus(from[0], to[0]), directions);
      if (x === undefined) continue;
      const onS = x.slice(0, from.length - 1);
      const onT = x.slice(from.length - 1);
      const weights = [1 - onS.reduce((a, b) => a + b, 0), ...onS];
      const others = [1 - onT.reduce((a, b) => a + b, 0), ...onT];
      if ([...weights, ...others].some((weight) => weight < -1e-9)) continue;
      const clamp = (all: readonly number[]) => all.map((weight) => Math.max(0, weight));
      const gap = minus(mix(from, clamp(weights)), mix(to, clamp(others)));
      best = Math.min(best, Math.sqrt(times(gap, gap)));
    }
  }
  return best;
}
