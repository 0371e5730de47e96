import type { Corner } from '../../design/schema.ts';
import { shownPoint } from '../../design/side.ts';
import { applyPoint, identity } from '../../math/rigid.ts';
import { dot, type Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import { contourOf, edgesOf, type MeshEdges, silhouetteOf } from '../../solids/contour.ts';
import type { Mesh, Solid } from '../../solids/solid.ts';
import { thinLine, thinOutline } from '../../solids/thinOutline.ts';
import { type OntoScreen, onScreen, ontoScreen, type Point } from './ontoScreen.ts';
import { type Box, boxAround, boxOf, loopsPathOf, pathPoint } from './path.ts';

/** One part in a view. */
export interface ViewedPart {
  /** Index of its solid. */
  solid: number;
  /** Closed outlines of what it covers; to be filled by the nonzero rule. */
  loops: readonly (readonly Point[])[];
  /** The loops as SVG path. */
  covers: string;
  /** SVG path of the edges between two faces toward the eye that fold there. */
  folds: string;
  box: Box;
}

/** A parallel view of a corner. Points are mm on the screen from the vehicle's origin. */
export interface CornerView {
  /** Far ones first. */
  parts: readonly ViewedPart[];
  box: Box;
  project(vehiclePoint: Vec3): Point;
}

/** Edges of a mesh do not depend on pose or view. */
const edgesByMesh = new WeakMap<Mesh, MeshEdges>();
function edgesOnce(mesh: Mesh): MeshEdges {
  const known = edgesByMesh.get(mesh) ?? edgesOf(mesh);
  edgesByMesh.set(mesh, known);
  return known;
}

/**
 * A view of a corner at a pose. `eye`: direction toward the eye in the vehicle as shown. A part is drawn over those further
 * from the eye, by the middle of each; parts that enclose each other need an order of the caller's own. No drawn line is
 * further than `toleranceMm` from that of the mesh.
 */
export function cornerView(
  solids: readonly Solid[],
  carriers: Carriers,
  { side }: Pick<Corner, 'side'>,
  eye: Vec3,
  toleranceMm = 0.2,
): CornerView {
  const drawn = solids.map((solid, index) => {
    const mesh = solid.shown ?? solid.mesh;
    const edges = edgesOnce(mesh);
    const projection = ontoScreen(carriers[solid.carrier], eye, side);
    const at = (vertex: number) => onScreen(projection, mesh.positions, 3 * vertex);
    const loops = silhouetteOf(edges, projection.eye)
      .map((loop) => thinOutline(loop.map(at), toleranceMm))
      .filter((loop) => loop.length > 2);
    return {
      solid: index,
      loops,
      covers: loopsPathOf(loops),
      folds: foldsPath(edges, projection, at, toleranceMm),
      box: boxAround(loops.flat()),
      depth: dot(applyPoint(carriers[solid.carrier], middleOf(mesh)), shownPoint(side, eye)),
    };
  });
  const inVehicle = ontoScreen(identity(), eye, side);
  return {
    parts: drawn.sort((a, b) => a.depth - b.depth).map(({ depth: _, ...part }) => part),
    box: boxOf(drawn.map(({ box }) => box)),
    project: (point) => onScreen(inVehicle, point, 0),
  };
}

/** Mean of the vertices. */
function middleOf({ positions }: Mesh): Vec3 {
  const sum = [0, 0, 0];
  for (let i = 0; i < positions.length; i++) sum[i % 3] += positions[i];
  const share = 3 / positions.length;
  return [sum[0] * share, sum[1] * share, sum[2] * share];
}

/** The folds between faces toward the eye, joined into lines. */
function foldsPath(
  edges: MeshEdges,
  { eye }: OntoScreen,
  at: (vertex: number) => Point,
  toleranceMm: number,
): string {
  const { vertices, folded } = edges;
  const ends = [...contourOf(edges, eye)]
    .filter((edge) => folded[edge] === 1)
    .map((edge) => [vertices[2 * edge], vertices[2 * edge + 1]] as const);
  return linesOf(ends)
    .map((line) => thinLine(line.map(at), toleranceMm))
    .map((line) => `M${line.map(pathPoint).join('L')}`)
    .join('');
}

/** Lines of vertices along edges: from each vertex that is not on two edges, then around what is left. */
function linesOf(edges: readonly (readonly [number, number])[]): number[][] {
  const beside = new Map<number, Set<number>>();
  const note = (from: number, to: number) => beside.set(from, (beside.get(from) ?? new Set()).add(to));
  for (const [from, to] of edges) {
    note(from, to);
    note(to, from);
  }
  const take = (from: number): number | undefined => {
    const next = beside.get(from)?.values().next().value;
    if (next === undefined) return undefined;
    beside.get(from)?.delete(next);
    beside.get(next)?.delete(from);
    return next;
  };
  const starts = [...beside].filter(([, next]) => next.size !== 2).map(([vertex]) => vertex);
  return [...starts, ...beside.keys()].flatMap((start) => {
    const lines: number[][] = [];
    for (let next = take(start); next !== undefined; next = take(start)) {
      const line = [start];
      for (let vertex: number | undefined = next; vertex !== undefined; vertex = take(vertex))
        line.push(vertex);
      lines.push(line);
    }
    return lines;
  });
}
