import { applyPoint, type Rigid, rotationAbout } from '../../src/math/rigid.ts';
import { dot, normalize, type Vec3 } from '../../src/math/vec.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { between } from './random.ts';
import { slowTriangleDistance } from './triangleOracle.ts';

/**
 * Directions in which the extents of two triangles are compared: 13 unit vectors from a cube's middle to its faces,
 * edges and corners.
 */
const DIRECTIONS: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [1, 1, 0],
  [1, -1, 0],
  [1, 0, 1],
  [1, 0, -1],
  [0, 1, 1],
  [0, 1, -1],
  [1, 1, 1],
  [1, 1, -1],
  [1, -1, 1],
  [-1, 1, 1],
].map(([x, y, z]) => normalize([x, y, z]));

interface Triangle {
  corners: number[];
  /** Least and greatest along each of `DIRECTIONS`. */
  extents: Float64Array;
}

function trianglesOf({ positions, triangles }: Mesh, t?: Rigid): Triangle[] {
  const out: Triangle[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const points = [0, 1, 2].map((k): Vec3 => {
      const v = 3 * triangles[i + k];
      const p: Vec3 = [positions[v], positions[v + 1], positions[v + 2]];
      return t === undefined ? p : applyPoint(t, p);
    });
    const extents = DIRECTIONS.flatMap((direction) => {
      const positionsAlong = points.map((p) => dot(direction, p));
      return [Math.min(...positionsAlong), Math.max(...positionsAlong)];
    });
    out.push({ corners: points.flat(), extents: Float64Array.from(extents) });
  }
  return out;
}

/** Lower bound of the distance of two triangles: the largest gap of their extents along any direction. */
function lowerBound(one: Triangle, other: Triangle): number {
  let apart = 0;
  for (let k = 0; k < one.extents.length; k += 2) {
    const gap = Math.max(other.extents[k] - one.extents[k + 1], one.extents[k] - other.extents[k + 1]);
    if (gap > apart) apart = gap;
  }
  return apart;
}

/**
 * Distance of two surfaces from every pair of triangles, in order of their lower bounds, until the remaining bounds
 * exceed the best distance.
 */
export function bruteForceDistance(a: Mesh, b: Mesh, aFromB: Rigid): number {
  const [ofA, ofB] = [trianglesOf(a), trianglesOf(b, aFromB)];
  const pairs = ofA
    .flatMap((one) => ofB.map((other) => ({ one, other, least: lowerBound(one, other) })))
    .sort((p, q) => p.least - q.least);
  let best = Infinity;
  for (const { one, other, least } of pairs) {
    if (least > best + 1e-9) break;
    best = Math.min(best, slowTriangleDistance(one.corners, other.corners));
  }
  return best;
}

/** Distance of a point from a surface. */
export function bruteForcePointDistance(mesh: Mesh, p: Vec3): number {
  return bruteForceDistance(
    mesh,
    { positions: Float64Array.from(p), triangles: Uint32Array.of(0, 0, 0) },
    Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0),
  );
}

/** A rotation about a random axis and a translation of at most `shiftMm` along each axis. */
export function randomRigid(random: () => number, shiftMm: number): Rigid {
  const some = (): number => between(random, -1, 1);
  const t = rotationAbout([0, 0, 0], normalize([some(), some(), some() + 1e-3]), between(random, -3, 3));
  t[3] = shiftMm * some();
  t[7] = shiftMm * some();
  t[11] = shiftMm * some();
  return t;
}
