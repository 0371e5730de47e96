import type { Vec3 } from '../../math/vec.ts';
import type { MotionCell } from './motionCell.ts';
import type { SweptField } from './sweptField.ts';

/** A box: least and greatest x, y, z, mm. */
export interface Box {
  least: Vec3;
  most: Vec3;
}

/** Half the diagonal of a cube of edge 1. */
const HALF_DIAGONAL = Math.sqrt(3) / 2;
/** Most that a vertex is moved to keep triangles from losing their area, as a share of the edge of a cube. */
const MOVE_SHARE = 0.02;
/** Tolerance of the distance at a corner, as a share of the edge. */
const TOLERANCE_SHARE = 0.1;

/** Bound on how far the surface of a grid is outside the body, as a multiple of the grid's edge: see `enclosingSurface`. */
export const EXCESS_SHARE = 2 * (HALF_DIAGONAL + MOVE_SHARE) + TOLERANCE_SHARE;

/** Cubes of a block along each axis. */
export const BLOCK = 16;
/** Corners of a block along each axis. */
export const SIDE = BLOCK + 1;

/** Distances at the corners of the cubes of a block that may meet the surface. */
export interface MeasuredBlock {
  /** The first corner of each of these cubes, by its index in `values`. */
  cubes: Uint32Array;
  /** By corner, the first axis fastest; not a number where nothing was measured. */
  values: Float64Array;
}

interface Block {
  /** First corner, in steps of the grid. */
  corner: Vec3;
  cells: readonly MotionCell[];
}

/**
 * A grid of cubes around a swept body, in blocks. An octree finds the blocks near the surface, and in each the cubes near
 * it. A block depends on nothing but its place, so blocks can be measured in any order, on any thread.
 */
export class SurfaceBlocks {
  readonly origin: Vec3;
  readonly edgeMm: number;
  /** The surface is drawn at this distance. */
  readonly levelMm: number;
  /** The blocks near the surface. */
  readonly blocks: readonly Block[];
  private readonly field: SweptField;
  private readonly toleranceMm: number;
  /**
   * Poses further from a cube than this are left out there. A corner's value is shared by cubes, so all poses with a point in
   * any of them must count: no such point is further from the corner than the diagonal.
   */
  private readonly mostMm: number;

  constructor(field: SweptField, box: Box, edgeMm: number) {
    this.field = field;
    this.origin = box.least;
    this.edgeMm = edgeMm;
    this.levelMm = (HALF_DIAGONAL + MOVE_SHARE) * edgeMm;
    this.toleranceMm = TOLERANCE_SHARE * edgeMm;
    this.mostMm = 2 * HALF_DIAGONAL * edgeMm + this.toleranceMm;
    const widest = Math.max(...box.most.map((most, i) => most - box.least[i]));
    const blocks: Block[] = [];
    const size = BLOCK * 2 ** Math.max(0, Math.ceil(Math.log2(widest / (BLOCK * edgeMm))));
    this.divide([0, 0, 0], size, field.roots, BLOCK, (corner, cells) => {
      blocks.push({ corner, cells });
    });
    this.blocks = blocks;
  }

  /** Place of a corner of the grid, mm. */
  place([i, j, k]: Vec3): Vec3 {
    const { origin, edgeMm } = this;
    return [origin[0] + i * edgeMm, origin[1] + j * edgeMm, origin[2] + k * edgeMm];
  }

  measure(index: number): MeasuredBlock {
    const { field, toleranceMm } = this;
    const { corner: first, cells } = this.blocks[index];
    const cubes: number[] = [];
    const values = new Float64Array(SIDE ** 3).fill(Number.NaN);
    this.divide(first, BLOCK, cells, 1, ([i, j, k], near) => {
      const cube = cornerIndex(i - first[0], j - first[1], k - first[2]);
      cubes.push(cube);
      for (let c = 0; c < 8; c++) {
        const [di, dj, dk] = [c & 1, (c >> 1) & 1, c >> 2];
        const at = cube + cornerIndex(di, dj, dk);
        if (Number.isNaN(values[at]))
          values[at] = field.distanceMm(near, this.place([i + di, j + dj, k + dk]), toleranceMm);
      }
    });
    return { cubes: Uint32Array.from(cubes), values };
  }

  /** Divides a cube of `size` grid steps near the surface down to cubes of `least` steps, with the cells near each. */
  private divide(
    corner: Vec3,
    size: number,
    cells: readonly MotionCell[],
    least: number,
    visit: (corner: Vec3, near: readonly MotionCell[]) => void,
  ): void {
    const { field, levelMm, edgeMm } = this;
    const half = size / 2;
    const centre = this.place([corner[0] + half, corner[1] + half, corner[2] + half]);
    const near = field.near(cells, centre, HALF_DIAGONAL * size * edgeMm, this.mostMm, levelMm);
    if (near === undefined || near.length === 0) return;
    if (size === least) {
      visit(corner, near);
      return;
    }
    for (let octant = 0; octant < 8; octant++)
      this.divide(
        [
          corner[0] + (octant & 1) * half,
          corner[1] + ((octant >> 1) & 1) * half,
          corner[2] + (octant >> 2) * half,
        ],
        half,
        near,
        least,
        visit,
      );
  }
}

/** Index of a corner of a block. */
export const cornerIndex = (i: number, j: number, k: number): number => (k * SIDE + j) * SIDE + i;
