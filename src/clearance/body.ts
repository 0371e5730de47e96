import type { Mesh, Zone } from '../solids/solid.ts';
import { buildTree, prepareForSearch, type Tree } from './tree.ts';
import { treeOnDemand } from './treeOnDemand.ts';
import { isClosed, weld } from './weld.ts';
import { cutZones, distanceOutside } from './zoneCut.ts';

/** One body of a pair, prepared for measuring, in the frame of its mesh. */
export interface Body {
  /** The measured surface: the mesh outside the zones. */
  surface: Tree;
  /** The whole mesh; the same tree as `surface` if there are no zones. */
  whole: Tree;
  /** Whether the whole mesh is closed, so that inside and outside are defined. */
  closed: boolean;
  /** The vertex of each connected piece of `surface` that is furthest outside the zones: x y z. */
  pieces: Float64Array;
  /** The largest triangle of each connected piece: nine coordinates. */
  faces: Float64Array;
  /** Least x y z, greatest x y z of `surface`. */
  box: Float64Array;
  chordErrorMm: number;
  /**
   * Greatest distance that the edge of `surface` reaches into the zones, mm: the cut is exact for zones smaller by
   * this.
   */
  cutErrorMm: number;
}

export interface BodyOptions {
  /** Zones of intended contact, in the frame of the mesh. They are shrunk by the chord error before the cut. */
  zones?: readonly Zone[];
  /** Greatest distance of the true surface from the mesh, mm. */
  chordErrorMm: number;
  /** Tolerance of the cut along the edge of a zone, mm; default 0.01. */
  zoneToleranceMm?: number;
  /**
   * For a body that is measured only a few times, in one thread: builds of its trees what the searches meet.
   */
  fastBuild?: boolean;
}

/** Each mesh is welded, checked and put into a tree once, even if it is in many pairs. */
const weldedMeshes = new WeakMap<Mesh, { welded: Mesh; closed: boolean }>();
const trees = new WeakMap<Mesh, Tree>();
/** Trees on demand, which no other thread can receive. */
const treesOnDemand = new WeakMap<Mesh, Tree>();

function weldedOf(mesh: Mesh): { welded: Mesh; closed: boolean } {
  const cached = weldedMeshes.get(mesh);
  if (cached !== undefined) return cached;
  const welded = weld(mesh);
  const whole = { welded, closed: isClosed(welded) };
  weldedMeshes.set(mesh, whole);
  return whole;
}

/** The tree of a whole mesh that is welded already. */
function treeOf(mesh: Mesh, welded: Mesh, fastBuild: boolean): Tree {
  const cached = trees.get(mesh) ?? (fastBuild ? treesOnDemand.get(mesh) : undefined);
  if (cached !== undefined) return cached;
  const tree = fastBuild ? treeOnDemand(welded) : buildTree(welded);
  (fastBuild ? treesOnDemand : trees).set(mesh, tree);
  return tree;
}

/** Frees the tree on demand of a mesh that is kept, but not measured again soon. */
export const forgetTree = (mesh: Mesh): void => {
  treesOnDemand.delete(mesh);
};

/**
 * Prepares a body: its tree, its surface outside the zones, and one vertex of each piece of that surface. Throws an
 * Error for an invalid mesh (a coordinate that is not finite, a vertex index out of range) and a RangeError for a
 * zone without size. Accepts an open mesh; `closed` is then false.
 */
export function prepareBody(mesh: Mesh, options: BodyOptions): Body {
  const { chordErrorMm, zoneToleranceMm = 0.01, fastBuild = false } = options;
  const zones = shrunkZones(options.zones ?? [], chordErrorMm);
  const { welded, closed } = weldedOf(mesh);
  const whole = treeOf(mesh, welded, fastBuild);
  const cut = cutZones(welded, zones, zoneToleranceMm);
  const build = fastBuild ? treeOnDemand : buildTree;
  const surface = cut.mesh === welded ? whole : build(cut.mesh);
  prepareForSearch(surface);
  return {
    surface,
    whole,
    closed,
    ...findPieces(cut.mesh, zones),
    box: boxOf(cut.mesh),
    chordErrorMm,
    cutErrorMm: cut.errorMm,
  };
}

/** Whether the zones cover a body's whole surface. Its clearance cannot be measured then. */
export const isCovered = ({ surface, whole }: Body): boolean =>
  surface.right.length === 0 && whole.right.length > 0;

/**
 * Zones shrunk by the chord error, for cutting. A point of the true surface outside a zone is then near a point of
 * the remaining mesh. Zones that shrink to nothing are omitted.
 */
export const shrunkZones = (zones: readonly Zone[], chordErrorMm: number): Zone[] =>
  zones.flatMap((zone): Zone[] => {
    const radiusMm = zone.radiusMm - chordErrorMm;
    if (zone.shape === 'sphere') return radiusMm > 0 ? [{ ...zone, radiusMm }] : [];
    const halfThicknessMm = zone.halfThicknessMm - chordErrorMm;
    return radiusMm > 0 && halfThicknessMm > 0 ? [{ ...zone, radiusMm, halfThicknessMm }] : [];
  });

/** `mesh` has no unused vertices. */
function boxOf({ positions }: Mesh): Float64Array {
  const box = Float64Array.of(1, 1, 1, -1, -1, -1).map((sign) => sign * Number.POSITIVE_INFINITY);
  for (let i = 0; i < positions.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const x = positions[i + k];
      if (x < box[k]) box[k] = x;
      if (x > box[3 + k]) box[3 + k] = x;
    }
  }
  return box;
}

/** One vertex and the largest triangle of each connected piece of a welded mesh. */
function findPieces(
  { positions, triangles }: Mesh,
  zones: readonly Zone[],
): { pieces: Float64Array; faces: Float64Array } {
  const outside = distanceOutside(zones);
  const parent = Uint32Array.from({ length: positions.length / 3 }, (_, v) => v);
  const root = (v: number): number => {
    let at = v;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  };
  for (let t = 0; t < triangles.length; t += 3) {
    parent[root(triangles[t + 1])] = root(triangles[t]);
    parent[root(triangles[t + 2])] = root(triangles[t]);
  }
  const vertices = parent.length;
  const vertexOf = new Int32Array(vertices).fill(-1);
  const outsideMm = new Float64Array(vertices);
  const faceOf = new Int32Array(vertices);
  const areaMm2 = new Float64Array(vertices);
  const roots: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const piece = root(triangles[t]);
    const area = areaOf(positions, triangles, t);
    const isNew = vertexOf[piece] < 0;
    if (isNew) roots.push(piece);
    if (isNew || area > areaMm2[piece]) {
      faceOf[piece] = t;
      areaMm2[piece] = area;
    }
    for (let k = t; k < t + 3; k++) {
      if (vertexOf[piece] >= 0 && zones.length === 0) break;
      const vertex = triangles[k];
      const at = 3 * vertex;
      const mm = outside(positions[at], positions[at + 1], positions[at + 2]);
      if (vertexOf[piece] < 0 || mm > outsideMm[piece]) {
        vertexOf[piece] = vertex;
        outsideMm[piece] = mm;
      }
    }
  }
  const at = (vertex: number) => [...positions.subarray(3 * vertex, 3 * vertex + 3)];
  return {
    pieces: Float64Array.from(roots.flatMap((piece) => at(vertexOf[piece]))),
    faces: Float64Array.from(
      roots.flatMap((piece) => [0, 1, 2].flatMap((k) => at(triangles[faceOf[piece] + k]))),
    ),
  };
}

function areaOf(p: Float64Array, triangles: Uint32Array, t: number): number {
  const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
  const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
  const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
  const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  return Math.sqrt(nx * nx + ny * ny + nz * nz) / 2;
}
