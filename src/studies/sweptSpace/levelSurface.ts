import { isClosed } from '../../clearance/weld.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { Mesh } from '../../solids/solid.ts';
import { BLOCK, cornerIndex, type MeasuredBlock, SIDE, type SurfaceBlocks } from './surfaceBlocks.ts';

/** The six tetrahedra of a cube, all around the diagonal from corner 0 to corner 7. Bit i of a corner is its step along axis i. */
const TETRAHEDRA = [
  [0, 1, 3, 7],
  [0, 3, 2, 7],
  [0, 2, 6, 7],
  [0, 6, 4, 7],
  [0, 4, 5, 7],
  [0, 5, 1, 7],
] as const;

/**
 * Least share of an edge between its end and the surface: keeps triangles from losing their area. The longest edge is the
 * diagonal of a cube, so a vertex moves by less than `MOVE_SHARE`.
 */
const LEAST_SHARE = 0.01;

/** Index of each corner of a cube from that of its first corner. */
const CORNERS = Array.from({ length: 8 }, (_, c) => cornerIndex(c & 1, (c >> 1) & 1, c >> 2));

/**
 * A closed outward mesh around a swept body, from the distances at the corners of a grid: all blocks of `blocks`, measured.
 * Each cube is divided into six tetrahedra, in which the distance is interpolated from the corners (marching tetrahedra: Doi
 * and Koide 1991, from memory). Neighbouring cubes share corners and edges, so the mesh is closed; that is checked.
 *
 * It contains the body. Let x be a point of it in a tetrahedron, w_i its weights. The value at corner i is at most the
 * distance there, or 0, so at most |x - x_i|. All corners are on a sphere of radius R, half the diagonal of the cube, and x is
 * inside that, so the sum of w_i |x - x_i|^2 is at most R^2, and the interpolated value at most R. The surface is drawn at the
 * level R, and that much higher by which its vertices are moved from the ends of edges. It is nowhere far outside: a point of
 * it has the value R, a corner's value is short of the distance by the tolerance at most, and the distance at x is at most that
 * at a corner plus |x - x_i|; with the same weights, at most 2 R plus the tolerance and twice the move (`EXCESS_SHARE`). The
 * same holds for every point inside the surface.
 */
export function enclosingSurface(blocks: SurfaceBlocks, measured: readonly MeasuredBlock[]): Mesh {
  shareCorners(blocks, measured);
  const marching = new Marching(blocks);
  measured.forEach((block, index) => {
    marching.march(blocks.blocks[index].corner, block);
  });
  const mesh = marching.mesh();
  if (!isClosed(mesh)) throw new Error('the surface of the swept space is not closed');
  return mesh;
}

/** Gives a corner that is measured in several blocks the value of the first of them. Each value is within the tolerance. */
function shareCorners({ blocks }: SurfaceBlocks, measured: readonly MeasuredBlock[]): void {
  const known = new Map<number, number>();
  blocks.forEach(({ corner }, index) => {
    const { values } = measured[index];
    for (let k = 0; k < SIDE; k++)
      for (let j = 0; j < SIDE; j++)
        for (let i = 0; i < SIDE; i++) {
          if (i % BLOCK > 0 && j % BLOCK > 0 && k % BLOCK > 0) continue;
          const at = cornerIndex(i, j, k);
          if (Number.isNaN(values[at])) continue;
          const key = gridKey(corner[0] + i, corner[1] + j, corner[2] + k);
          const value = known.get(key);
          if (value === undefined) known.set(key, values[at]);
          else values[at] = value;
        }
  });
}

/** Draws the surface in one block after another. */
class Marching {
  private readonly blocks: SurfaceBlocks;
  /** Vertex on each edge of the tetrahedra, by its start and direction: in the block in hand, and on faces that blocks share. */
  private readonly inBlock = new Map<number, number>();
  private readonly shared = new Map<number, number>();
  private readonly positions: number[] = [];
  private readonly triangles: number[] = [];
  private first: Vec3 = [0, 0, 0];
  private cube: Vec3 = [0, 0, 0];
  private readonly values = new Float64Array(8);

  constructor(blocks: SurfaceBlocks) {
    this.blocks = blocks;
  }

  march(first: Vec3, { cubes, values }: MeasuredBlock): void {
    this.first = first;
    this.inBlock.clear();
    for (const cube of cubes) {
      this.cube = [cube % SIDE, Math.floor(cube / SIDE) % SIDE, Math.floor(cube / SIDE ** 2)];
      for (let c = 0; c < 8; c++) this.values[c] = values[cube + CORNERS[c]];
      this.marchCube();
    }
  }

  private marchCube(): void {
    const { values } = this;
    const { levelMm } = this.blocks;
    for (const tetrahedron of TETRAHEDRA) {
      const inside = tetrahedron.filter((c) => values[c] <= levelMm);
      const outside = tetrahedron.filter((c) => values[c] > levelMm);
      const on = (a: number, b: number): number => this.vertexOn(a, b);
      if (inside.length === 1)
        this.add(on(inside[0], outside[0]), on(inside[0], outside[1]), on(inside[0], outside[2]), inside[0]);
      else if (inside.length === 3)
        this.add(on(inside[0], outside[0]), on(inside[1], outside[0]), on(inside[2], outside[0]), inside[0]);
      else if (inside.length === 2) {
        const [p, q, r, s] = [
          on(inside[0], outside[0]),
          on(inside[0], outside[1]),
          on(inside[1], outside[1]),
          on(inside[1], outside[0]),
        ];
        this.add(p, q, r, inside[0]);
        this.add(p, r, s, inside[0]);
      }
    }
  }

  /** Place of a corner of the cube in hand. */
  private place(c: number): Vec3 {
    const { first, cube } = this;
    return this.blocks.place([
      first[0] + cube[0] + (c & 1),
      first[1] + cube[1] + ((c >> 1) & 1),
      first[2] + cube[2] + (c >> 2),
    ]);
  }

  /** The vertex on the edge between two corners of the cube in hand, one inside and one outside. */
  private vertexOn(inside: number, outside: number): number {
    const { values, first, cube } = this;
    const { levelMm } = this.blocks;
    // Of two ends of an edge of a tetrahedron, one has all steps of the other.
    const start = inside & outside;
    const along = inside ^ outside;
    const [i, j, k] = [cube[0] + (start & 1), cube[1] + ((start >> 1) & 1), cube[2] + (start >> 2)];
    const onFace =
      (i % BLOCK === 0 && (along & 1) === 0) ||
      (j % BLOCK === 0 && (along & 2) === 0) ||
      (k % BLOCK === 0 && (along & 4) === 0);
    const edges = onFace ? this.shared : this.inBlock;
    const key =
      8 * (onFace ? gridKey(first[0] + i, first[1] + j, first[2] + k) : cornerIndex(i, j, k)) + along;
    const known = edges.get(key);
    if (known !== undefined) return known;
    const share = (levelMm - values[inside]) / (values[outside] - values[inside]);
    const t = Math.min(Math.max(share, LEAST_SHARE), 1 - LEAST_SHARE);
    const [from, to] = [this.place(inside), this.place(outside)];
    const index = this.positions.length / 3;
    for (let axis = 0; axis < 3; axis++)
      this.positions.push(Math.fround(from[axis] + t * (to[axis] - from[axis])));
    edges.set(key, index);
    return index;
  }

  /** Adds a triangle, with its front away from a corner inside. */
  private add(a: number, b: number, c: number, inside: number): void {
    const { positions } = this;
    const at = (vertex: number, i: number): number => positions[3 * vertex + i];
    const [ux, uy, uz] = [0, 1, 2].map((i) => at(b, i) - at(a, i));
    const [vx, vy, vz] = [0, 1, 2].map((i) => at(c, i) - at(a, i));
    const within = this.place(inside);
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

/** More corners of the grid along an axis than there are; 8 times the cube of it is a whole number without rounding. */
const GRID = 2 ** 16;

const gridKey = (i: number, j: number, k: number): number => (k * GRID + j) * GRID + i;
