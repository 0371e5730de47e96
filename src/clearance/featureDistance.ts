import { applyDirection, applyPoint, compose, invert, type Rigid } from '../math/rigid.ts';
import { cross, dot, length, type Vec3 } from '../math/vec.ts';
import type { Mesh } from '../solids/solid.ts';
import { SurfaceSearch } from './surfaceSearch.ts';
import { buildTree, type Tree, withOrientedBoxes } from './tree.ts';

/** A feature to measure from, in its own frame: a point, a straight edge or a piece of surface. */
export interface MeasuredFeature {
  /** Its triangles. A point or an edge is a triangle without area. */
  tree: Tree;
  /** Greatest distance of the true part's feature from this one, mm. */
  errorMm: number;
  /** Direction of an edge or axis, or normal of a flat face; undefined for a point. */
  direction: { kind: 'along' | 'normal'; unit: Vec3; tiltErrorRad: number } | undefined;
  /** Whether the feature has a defined position. FeatureDistance two such features, the distance has components. */
  isPoint: boolean;
}

/** The shortest distance of two features and the angle between them, with error bounds. Points in vehicle axes. */
export interface FeatureDistance {
  distanceMm: number;
  errorMm: number;
  from: Vec3;
  to: Vec3;
  /** 0 to a right angle; undefined if a feature is a point, or too small to have a certain direction. */
  angle: { rad: number; errorRad: number } | undefined;
}

/** A tree with one triangle without area, through one or two points. */
export function lineTree(points: readonly [Vec3] | readonly [Vec3, Vec3]): Tree {
  const positions = Float64Array.from(points.flat());
  const last = points.length - 1;
  return withOrientedBoxes(buildTree({ positions, triangles: Uint32Array.of(0, last, last) }));
}

/** A tree of selected triangles of a mesh. */
export function patchTree({ positions, triangles }: Mesh, chosen: Uint32Array): Tree {
  const own = new Uint32Array(3 * chosen.length);
  chosen.forEach((t, i) => {
    own.set(triangles.subarray(3 * t, 3 * t + 3), 3 * i);
  });
  return withOrientedBoxes(buildTree({ positions, triangles: own }));
}

/** Measures two features at successive poses. */
export class FeatureDistanceQuery {
  private readonly a: MeasuredFeature;
  private readonly b: MeasuredFeature;
  private readonly search: SurfaceSearch;

  constructor(a: MeasuredFeature, b: MeasuredFeature) {
    this.a = a;
    this.b = b;
    this.search = new SurfaceSearch(a.tree, b.tree);
  }

  at(vehicleFromA: Rigid, vehicleFromB: Rigid): FeatureDistance {
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
  { direction: a }: MeasuredFeature,
  { direction: b }: MeasuredFeature,
  vehicleFromA: Rigid,
  vehicleFromB: Rigid,
): FeatureDistance['angle'] {
  if (a === undefined || b === undefined) return undefined;
  const errorRad = a.tiltErrorRad + b.tiltErrorRad;
  if (!(errorRad < Math.PI / 4)) return undefined;
  const [u, v] = [applyDirection(vehicleFromA, a.unit), applyDirection(vehicleFromB, b.unit)];
  // atan2 is accurate for right angles and for very small angles.
  const between = Math.atan2(length(cross(u, v)), Math.abs(dot(u, v)));
  return { rad: a.kind === b.kind ? between : Math.PI / 2 - between, errorRad };
}
