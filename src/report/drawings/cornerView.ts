import type { Corner } from '../../design/schema.ts';
import { shownPoint } from '../../design/side.ts';
import { applyPoint, identity } from '../../math/rigid.ts';
import { dot, type Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import { contourOf, edgesOf, type MeshEdges, silhouetteOf } from '../../solids/contour.ts';
import type { Mesh, Solid } from '../../solids/solid.ts';
import { type OntoScreen, onScreen, ontoScreen, type Point } from './ontoScreen.ts';
import { simplified } from './simplified.ts';

/** Extent of a drawing, mm. */
export interface Box {
  left: number;
  top: number;
  width: number;
  height: number;
}

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

/** Largest deviation of a drawn outline from that of the mesh, mm of the vehicle. */
const TOLERANCE_MM = 0.2;

/** Edges of a mesh do not depend on pose or view. */
const edgesByMesh = new WeakMap<Mesh, MeshEdges>();
function edgesOnce(mesh: Mesh): MeshEdges {
  const known = edgesByMesh.get(mesh) ?? edgesOf(mesh);
  edgesByMesh.set(mesh, known);
  return known;
}

/**
 * A view of a corner at a pose. `eye`: direction toward the eye in the vehicle as shown. A part is drawn over those further
 * from the eye, by the middle of each; parts that enclose each other need an order of the caller's own.
 */
export function cornerView(
  solids: readonly Solid[],
  carriers: Carriers,
  { side }: Pick<Corner, 'side'>,
  eye: Vec3,
): CornerView {
  const drawn = solids.map((solid, index) => {
    const mesh = solid.shown ?? solid.mesh;
    const edges = edgesOnce(mesh);
    const projection = ontoScreen(carriers[solid.carrier], eye, side);
    const at = (vertex: number) => onScreen(projection, mesh.positions, 3 * vertex);
    const loops = silhouetteOf(edges, projection.eye)
      .map((loop) => simplified(loop.map(at), TOLERANCE_MM))
      .filter((loop) => loop.length > 2);
    return {
      solid: index,
      loops,
      covers: loopsOutline(loops),
      folds: foldsPath(edges, projection, at),
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

/** The folds that the part's own faces toward the eye meet at. */
function foldsPath(edges: MeshEdges, { eye }: OntoScreen, at: (vertex: number) => Point): string {
  let path = '';
  for (const edge of contourOf(edges, eye))
    if (edges.folded[edge] === 1)
      path += `M${pathPoint(at(edges.vertices[2 * edge]))}L${pathPoint(at(edges.vertices[2 * edge + 1]))}`;
  return path;
}

/** SVG path of closed outlines. */
export const loopsOutline = (loops: readonly (readonly Point[])[]): string =>
  loops.map((loop) => `M${loop.map(pathPoint).join('L')}Z`).join('');

export const pathPoint = ([x, y]: Point): string => `${plain(x)} ${plain(y)}`;

/** A coordinate of a path, to 0.01. */
export const plain = (value: number): string => `${Math.round(value * 100) / 100}`;

/** The smallest box around points. */
export function boxAround(points: readonly Point[]): Box {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  return { left, top, width: right - left, height: bottom - top };
}

/** The smallest box around boxes. */
export const boxOf = (boxes: readonly Box[]): Box =>
  boxAround(
    boxes.flatMap(({ left, top, width, height }): Point[] => [
      [left, top],
      [left + width, top + height],
    ]),
  );
