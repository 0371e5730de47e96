import { isClosed } from '../../clearance/weld.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { Mesh } from '../../solids/solid.ts';
import type { MotionCell } from './motionCell.ts';
import type { SweptField } from './sweptField.ts';

/** A box: least and greatest x, y, z, mm. */
export interface Box {
  least: Vec3;
  most: Vec3;
}

/** The six tetrahedra of a cube, all around the diagonal from corner 0 to corner 7. Bit i of a corner is its step along axis i. */
const TETRAHEDRA = [
  [0, 1, 3, 7],
  [0, 3, 2, 7],
  [0, 2, 6, 7],
  [0, 6, 4, 7],
  [0, 4, 5, 7],
  [0, 5, 1, 7],
] as const;

/** Least share of an edge between its end and the surface: keeps triangles from losing their area. */
const LEAST_SHARE = 0.01;
/** That moves a vertex by less than this share of the grid's edge. */
const MOVE_SHARE = 0.02;

/** Half the diagonal of a cube of edge 1. */
const HALF_DIAGONAL = Math.sqrt(3) / 2;
/** Tolerance of the distance at a corner, as a share of the edge. */
const TOLERANCE_SHARE = 0.1;

/** Bound on how far the surface of a grid is outside the body, as a multiple of the grid's edge: see `enclosingSurface`. */
export const EXCESS_SHARE = 2 * (HALF_DIAGONAL + MOVE_SHARE) + TOLERANCE_SHARE;

/**
 * A closed outward mesh around a swept body. An octree finds the cubes of edge `edgeMm` near the surface; each is divided
 * into six tetrahedra, in which the distance is interpolated from the corners (marching tetrahedra: Doi and Koide 1991, from
 * memory). Neighbouring cubes share corners and edges, so the mesh is closed; that is checked.
 *
 * It contains the body. Let x be a point of it in a tetrahedron, w_i its weights. The value at corner i is at most the
 * distance there, or 0, so at most |x - x_i|. All corners are on a sphere of radius R, half the diagonal of the cube, and x is
 * inside that, so the sum of w_i |x - x_i|^2 is at most R^2, and the interpolated value at most R. The surface is drawn at the
 * level R, and that much higher by which its vertices are moved from the ends of edges. It is nowhere far outside: a point of it has the value R, a corner's value is short of the distance by the tolerance
 * at most, and the distance at x is at most that at a corner plus |x - x_i|; with the same weights, at most 2 R plus the
 * tolerance and twice the move (`EXCESS_SHARE`). The same holds for every point inside the surface.
 */
export function enclosingSurface(
  field: SweptField,
  box: Box,
  edgeMm: number,
  onProgress: (share: number) => void,
): Mesh {
  const marching = new Marching(field, box.least, edgeMm);
  const widest = Math.max(...box.most.map((most, i) => most - box.least[i]));
  const levels = Math.max(0, Math.ceil(Math.log2(widest / edgeMm)));
  marching.visit([0, 0, 0], 2 ** levels, field.roots, 0, 1, onProgress);
  const mesh = marching.mesh();
  if (!isClosed(mesh)) throw new Error('the surface of the swept space is not closed');
  return mesh;
}

class Marching {
  private readonly field: SweptField;
  private readonly origin: Vec3;
  private readonly levelMm: number;
  private readonly toleranceMm: number;
  /**
   * Poses further from a cube than this are left out there. A corner's value is shared by cubes, so all poses with a point in
   * any of them must count: no such point is further from the corner than the diagonal.
   */
  private readonly mostMm: number;
  private readonly edgeMm: number;
  /** Distance at each corner of the grid, by its key. */
  private readonly values = new Map<number, number>();
  /** Vertex on each edge of the tetrahedra, by the keys of its two ends. */
  private readonly onEdges = new Map<number, Map<number, number>>();
  private readonly positions: number[] = [];
  private readonly triangles: number[] = [];

  constructor(field: SweptField, origin: Vec3, edgeMm: number) {
    this.field = field;
    this.origin = origin;
    this.levelMm = (HALF_DIAGONAL + MOVE_SHARE) * edgeMm;
    this.toleranceMm = TOLERANCE_SHARE * edgeMm;
    this.mostMm = 2 * HALF_DIAGONAL * edgeMm + this.toleranceMm;
    this.edgeMm = edgeMm;
  }

  /** Visits a cube of `size` grid steps. `from` and `share`: its part of the whole progress. */
  visit(
    corner: Vec3,
    size: number,
    cells: readonly MotionCell[],
    from: number,
    share: number,
    onProgress: (share: number) => void,
  ): void {
    const { field, levelMm, edgeMm } = this;
    const centre = this.place([corner[0] + size / 2, corner[1] + size / 2, corner[2] + size / 2]);
    const radius = HALF_DIAGONAL * size * edgeMm;
    const near = field.near(cells, centre, radius, this.mostMm, levelMm);
    if (near !== undefined && near.length > 0) {
      if (size === 1) this.march(corner, near);
      else
        for (let octant = 0; octant < 8; octant++)
          this.visit(
            [0, 1, 2].map((i) => corner[i] + ((octant >> i) & 1) * (size / 2)) as unknown as Vec3,
            size / 2,
            near,
            from + (share * octant) / 8,
            share / 8,
            onProgress,
          );
    }
    // Below that, a step of the progress is too small to be shown.
    if (share > 1e-4) onProgress(from + share);
  }

  private place([i, j, k]: Vec3): Vec3 {
    const { origin, edgeMm } = this;
    return [origin[0] + i * edgeMm, origin[1] + j * edgeMm, origin[2] + k * edgeMm];
  }

  private march(corner: Vec3, cells: readonly MotionCell[]): void {
    const keys: number[] = [];
    const places: Vec3[] = [];
    const values: number[] = [];
    for (let c = 0; c < 8; c++) {
      const at: Vec3 = [corner[0] + (c & 1), corner[1] + ((c >> 1) & 1), corner[2] + ((c >> 2) & 1)];
      const key = (at[2] * GRID + at[1]) * GRID + at[0];
      const place = this.place(at);
      let value = this.values.get(key);
      if (value === undefined) {
        value = this.field.distanceMm(cells, place, this.toleranceMm);
        this.values.set(key, value);
      }
      keys.push(key);
      places.push(place);
      values.push(value);
    }
    for (const tetrahedron of TETRAHEDRA) {
      const inside = tetrahedron.filter((c) => values[c] <= this.levelMm);
      const outside = tetrahedron.filter((c) => values[c] > this.levelMm);
      const on = (a: number, b: number): number => this.vertexOn(keys, places, values, a, b);
      if (inside.length === 1)
        this.add(
          on(inside[0], outside[0]),
          on(inside[0], outside[1]),
          on(inside[0], outside[2]),
          places,
          inside,
        );
      else if (inside.length === 3)
        this.add(
          on(inside[0], outside[0]),
          on(inside[1], outside[0]),
          on(inside[2], outside[0]),
          places,
          inside,
        );
      else if (inside.length === 2) {
        const [p, q, r, s] = [
          on(inside[0], outside[0]),
          on(inside[0], outside[1]),
          on(inside[1], outside[1]),
          on(inside[1], outside[0]),
        ];
        this.add(p, q, r, places, inside);
        this.add(p, r, s, places, inside);
      }
    }
  }

  /** The vertex on the edge between a corner inside and one outside. */
  private vertexOn(
    keys: readonly number[],
    places: readonly Vec3[],
    values: readonly number[],
    inside: number,
    outside: number,
  ): number {
    const [low, high] = keys[inside] < keys[outside] ? [inside, outside] : [outside, inside];
    let ends = this.onEdges.get(keys[low]);
    if (ends === undefined) {
      ends = new Map();
      this.onEdges.set(keys[low], ends);
    }
    const known = ends.get(keys[high]);
    if (known !== undefined) return known;
    const share = (this.levelMm - values[inside]) / (values[outside] - values[inside]);
    const t = Math.min(Math.max(share, LEAST_SHARE), 1 - LEAST_SHARE);
    const index = this.positions.length / 3;
    for (let i = 0; i < 3; i++)
      this.positions.push(Math.fround(places[inside][i] + t * (places[outside][i] - places[inside][i])));
    ends.set(keys[high], index);
    return index;
  }

  /** Adds a triangle, with its front away from a corner inside. */
  private add(a: number, b: number, c: number, places: readonly Vec3[], inside: readonly number[]): void {
    const { positions } = this;
    const at = (vertex: number, i: number): number => positions[3 * vertex + i];
    const [ux, uy, uz] = [0, 1, 2].map((i) => at(b, i) - at(a, i));
    const [vx, vy, vz] = [0, 1, 2].map((i) => at(c, i) - at(a, i));
    const within = places[inside[0]];
    const side =
      (uy * vz - uz * vy) * (within[0] - at(a, 0)) +
      (uz * vx - ux * vz) * (within[1] - at(a, 1)) +
      (ux * vy - uy * vx) * (within[2] - at(a, 2));
    if (side > 0) this.triangles.push(a, c, b);
    else this.triangles.push(a, b, c);
  }

  mesh(): Mesh {
    if (this.triangles.length === 0) throw new Error('the swept space is empty');
    return { positions: Float64Array.from(this.positions), triangles: Uint32Array.from(this.triangles) };
  }
}

/** More corners of the grid along an axis than there are. */
const GRID = 2 ** 17;
