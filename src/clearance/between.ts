import { applyDirection, applyPoint, compose, invert, type Rigid } from '../math/rigid.ts';
import { cross, dot, length, type Vec3 } from '../math/vec.ts';
import type { Mesh } from '../solids/solid.ts';
import { SurfaceSearch } from './surfaceSearch.ts';
import { buildTree, type Tree, withOrientedBoxes } from './tree.ts';

/** A thing to measure from, in its own frame: a point, a straight edge or a piece of surface. */
export interface Marked {
  /** Its triangles; a point or an edge is one of no area. */
  tree: Tree;
  /** How far the thing of the true part may be from this one, mm. */
  errorMm: number;
  /** The way an edge or an axis runs, or a flat face looks; undefined for a mere point. */
  way: { kind: 'along' | 'normal'; unit: Vec3; tiltErrorRad: number } | undefined;
  /** Whether it has a place of its own, so that what lies between two such has components. */
  isPoint: boolean;
}

/** The shortest way between two things and the angle of the two, with their error bounds. Points in vehicle axes. */
export interface Between {
  distanceMm: number;
  errorMm: number;
  from: Vec3;
  to: Vec3;
  /** 0 to a right angle; undefined where one of the two is a point, or so small that its direction cannot be told. */
  angle: { rad: number; errorRad: number } | undefined;
}

/** A tree of the triangle of no area through one point, or two. */
export function lineTree(points: readonly [Vec3] | readonly [Vec3, Vec3]): Tree {
  const positions = Float64Array.from(points.flat());
  const last = points.length - 1;
  return withOrientedBoxes(buildTree({ positions, triangles: Uint32Array.of(0, last, last) }));
}

/** A tree of some triangles of a mesh. */
export function patchTree({ positions, triangles }: Mesh, chosen: Uint32Array): Tree {
  const own = new Uint32Array(3 * chosen.length);
  chosen.forEach((t, i) => {
    own.set(triangles.subarray(3 * t, 3 * t + 3), 3 * i);
  });
  return withOrientedBoxes(buildTree({ positions, triangles: own }));
}

/** Measures two things at one pose after another. */
export class BetweenQuery {
  private readonly a: Marked;
  private readonly b: Marked;
  private readonly search: SurfaceSearch;

  constructor(a: Marked, b: Marked) {
    this.a = a;
    this.b = b;
    this.search = new SurfaceSearch(a.tree, b.tree);
  }

  at(vehicleFromA: Rigid, vehicleFromB: Rigid): Between {
    const { a, b, search } = this;
    const aFromB = compose(invert(vehicleFromA), vehicleFromB);
    search.reset();
    search.moveTo(aFromB);
    search.run(Number.POSITIVE_INFINITY);
    const [pointA, pointB] = [search.pointA, search.pointB].map(
      ([x, y, z]): Vec3 => applyPoint(vehicleFromA, [x, y, z]),
    );
    return {
      distanceMm: search.crossing ? 0 : Math.sqrt(search.distanceSq),
      errorMm: a.errorMm + b.errorMm,
      from: pointA,
      to: pointB,
      angle: angleOf(a, b, vehicleFromA, vehicleFromB),
    };
  }
}

function angleOf(
  { way: a }: Marked,
  { way: b }: Marked,
  vehicleFromA: Rigid,
  vehicleFromB: Rigid,
): Between['angle'] {
  if (a === undefined || b === undefined) return undefined;
  const errorRad = a.tiltErrorRad + b.tiltErrorRad;
  if (!(errorRad < Math.PI / 4)) return undefined;
  const [u, v] = [applyDirection(vehicleFromA, a.unit), applyDirection(vehicleFromB, b.unit)];
  // Of a right angle and of none alike, to the last digits.
  const between = Math.atan2(length(cross(u, v)), Math.abs(dot(u, v)));
  return { rad: a.kind === b.kind ? between : Math.PI / 2 - between, errorRad };
}
