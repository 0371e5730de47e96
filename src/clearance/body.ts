import type { Mesh, Zone } from '../solids/solid.ts';
import { buildTree, type Tree, withOrientedBoxes } from './tree.ts';
import { isClosed, weld } from './weld.ts';
import { cutZones, outsideOf } from './zoneCut.ts';

/** One body of a pair, made ready to be measured. Its own frame is that of its mesh. */
export interface Body {
  /** The surface that is measured: the mesh without what lies inside the zones. */
  surface: Tree;
  /** The whole mesh; the same tree as `surface` where there are no zones. */
  whole: Tree;
  /** Whether the whole mesh is closed, so that inside can be told from outside. */
  closed: boolean;
  /** Of each connected piece of `surface`, the vertex furthest outside the zones: x y z. */
  pieces: Float64Array;
  /** Of each connected piece, its largest triangle, as nine coordinates. */
  faces: Float64Array;
  /** Least x y z, greatest x y z of `surface`. */
  box: Float64Array;
  chordErrorMm: number;
  /** How far the edge of `surface` reaches into the zones at most: it is cut as by zones smaller by this. */
  cutErrorMm: number;
}

export interface BodyOptions {
  /** Where contact is intended, in the frame of the mesh. They are drawn in by the chord error before they are cut. */
  zones?: readonly Zone[];
  /** How far the true surface is from the mesh at most, mm. */
  chordErrorMm: number;
  /** How closely the edge of a zone is followed, mm; 0.01 unless told. */
  zoneToleranceMm?: number;
  /** For a body that is measured a few times only: what is cut of it is put into a tree in less time, and not as well. */
  brief?: boolean;
}

interface Whole {
  welded: Mesh;
  tree: Tree;
  closed: boolean;
}

/** A mesh is welded, checked and put into a tree once, however many pairs it is part of. */
const wholes = new WeakMap<Mesh, Whole>();

function wholeOf(mesh: Mesh): Whole {
  const known = wholes.get(mesh);
  if (known !== undefined) return known;
  const welded = weld(mesh);
  const whole = { welded, tree: buildTree(welded), closed: isClosed(welded) };
  wholes.set(mesh, whole);
  return whole;
}

/**
 * Makes a body ready: its tree, what the zones leave of its surface, and one vertex of each piece of that. Throws an
 * Error for a mesh that is not one (a coordinate that is no number, a vertex that is not there) and a RangeError for a
 * zone without size. A mesh that is not closed is taken; `closed` says so.
 */
export function prepareBody(mesh: Mesh, options: BodyOptions): Body {
  const { chordErrorMm, zoneToleranceMm = 0.01, brief = false } = options;
  const zones = drawnIn(options.zones ?? [], chordErrorMm);
  const { welded, tree, closed } = wholeOf(mesh);
  const cut = cutZones(welded, zones, zoneToleranceMm);
  const surface = withOrientedBoxes(cut.mesh === welded ? tree : buildTree(cut.mesh, brief));
  return {
    surface,
    whole: tree,
    closed,
    ...findPieces(cut.mesh, zones),
    box: boxOf(cut.mesh),
    chordErrorMm,
    cutErrorMm: cut.errorMm,
  };
}

/** Whether the zones leave nothing of a body's surface: no clearance of it can be measured. */
export const isCovered = ({ surface, whole }: Body): boolean =>
  surface.right.length === 0 && whole.right.length > 0;

/**
 * Zones drawn in by the chord error, as they are cut out of a surface: a point of the true surface outside a zone is then
 * near a point of the mesh that is left. Those of which nothing remains are left out.
 */
export const drawnIn = (zones: readonly Zone[], chordErrorMm: number): Zone[] =>
  zones.flatMap((zone): Zone[] => {
    const radiusMm = zone.radiusMm - chordErrorMm;
    if (zone.shape === 'sphere') return radiusMm > 0 ? [{ ...zone, radiusMm }] : [];
    const halfThicknessMm = zone.halfThicknessMm - chordErrorMm;
    return radiusMm > 0 && halfThicknessMm > 0 ? [{ ...zone, radiusMm, halfThicknessMm }] : [];
  });

function boxOf({ positions, triangles }: Mesh): Float64Array {
  const box = Float64Array.of(1, 1, 1, -1, -1, -1).map((sign) => sign * Number.POSITIVE_INFINITY);
  for (const v of triangles) {
    for (let k = 0; k < 3; k++) {
      box[k] = Math.min(box[k], positions[3 * v + k]);
      box[3 + k] = Math.max(box[3 + k], positions[3 * v + k]);
    }
  }
  return box;
}

/** One vertex and the largest triangle of each connected piece of a welded mesh. */
function findPieces(
  { positions, triangles }: Mesh,
  zones: readonly Zone[],
): { pieces: Float64Array; faces: Float64Array } {
  const outside = outsideOf(zones);
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
  const vertexOf = new Map<number, { vertex: number; outsideMm: number }>();
  const faceOf = new Map<number, { triangle: number; area: number }>();
  for (let t = 0; t < triangles.length; t += 3) {
    const piece = root(triangles[t]);
    const area = areaOf(positions, triangles, t);
    const face = faceOf.get(piece);
    if (face === undefined || area > face.area) faceOf.set(piece, { triangle: t, area });
    for (let k = t; k < t + 3; k++) {
      const vertex = triangles[k];
      const known = vertexOf.get(piece);
      if (known !== undefined && zones.length === 0) continue;
      const at = 3 * vertex;
      const outsideMm = outside(positions[at], positions[at + 1], positions[at + 2]);
      if (known === undefined || outsideMm > known.outsideMm) vertexOf.set(piece, { vertex, outsideMm });
    }
  }
  const at = (vertex: number) => [...positions.subarray(3 * vertex, 3 * vertex + 3)];
  return {
    pieces: Float64Array.from([...vertexOf.values()].flatMap(({ vertex }) => at(vertex))),
    faces: Float64Array.from(
      [...faceOf.values()].flatMap(({ triangle }) => [0, 1, 2].flatMap((k) => at(triangles[triangle + k]))),
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
