import { addScaled, cross, distance, dot, length, midpoint, scale, sub, type Vec3 } from '../../math/vec.ts';
import type { Mesh } from '../../solids/solid.ts';
import type { MotionCell } from './motionCell.ts';
import type { SweptField } from './sweptField.ts';

/** A surface around a swept body. */
export interface ProvedSurface {
  mesh: Mesh;
  /** No point of the surface is further outside the body than this, mm. */
  excessMm: number;
}

export interface SurfaceGoal {
  /** New vertices are placed at this distance from the body, mm. */
  levelMm: number;
  /** The surface must be nowhere further from the body than this, mm. */
  mostMm: number;
}

/** Rounds of division; after that, the surface is taken to be impossible. */
const MOST_ROUNDS = 40;
/** A triangle smaller than this, mm, is not divided. */
const LEAST_TRIANGLE_MM = 0.05;
/** Sizes of the cubes in which poses are searched together, mm. */
const LEAST_BLOCK_MM = 10;
const LARGEST_BLOCK_MM = 640;
/** Largest number of steps in which a new vertex moves toward its distance, and how near it must come, mm. */
const STEPS_TO_LEVEL = 20;
const NEAR_LEVEL_MM = 0.05;
/** Tolerance of the distance at the middle of a triangle, as a share of the largest. */
const TOLERANCE_SHARE = 0.1;

/**
 * Divides the triangles of a closed surface until it is proved of each that the distance from the swept body is above 0 and
 * at most `mostMm` everywhere on it. A triangle that fails is cut at the middle of its longest side, as its neighbour is, so
 * the surface stays closed; the new vertex moves to the distance `levelMm`. Vertices are rounded to Float32, as files store
 * them. Throws an Error if a triangle cannot be proved.
 */
export function proveSurface(
  field: SweptField,
  start: Mesh,
  { levelMm, mostMm }: SurfaceGoal,
  onProgress: (proved: number, all: number) => void,
): ProvedSurface {
  const positions = Array.from(start.positions, Math.fround);
  const at = (vertex: number): Vec3 => [
    positions[3 * vertex],
    positions[3 * vertex + 1],
    positions[3 * vertex + 2],
  ];
  const blocks = new Blocks(field, mostMm);
  const toleranceMm = TOLERANCE_SHARE * mostMm;
  const done: number[] = [];
  let open: number[] = Array.from(start.triangles);
  let excessMm = Number.NEGATIVE_INFINITY;
  for (let round = 0; open.length > 0; round++) {
    if (round === MOST_ROUNDS) throw new Error('the surface around the swept space could not be proved');
    const failed: number[] = [];
    const passed: number[] = [];
    for (let i = 0; i < open.length; i += 3) {
      if (i % 3000 === 0) onProgress((done.length + passed.length) / 3, (done.length + open.length) / 3);
      const corners = [at(open[i]), at(open[i + 1]), at(open[i + 2])] as const;
      const middle = meanOf(corners);
      const radius = Math.max(...corners.map((corner) => distance(corner, middle)));
      const cells = blocks.near(middle, radius);
      field.distanceMm(cells, middle, toleranceMm);
      const bounds = field.triangle(cells, ...corners);
      if (bounds.clear && bounds.mostMm <= mostMm) {
        excessMm = Math.max(excessMm, bounds.mostMm);
        passed.push(open[i], open[i + 1], open[i + 2]);
      } else {
        if (radius < LEAST_TRIANGLE_MM)
          throw new Error('the surface around the swept space could not be proved');
        failed.push(open[i], open[i + 1], open[i + 2]);
      }
    }
    for (const index of passed) done.push(index);
    if ((globalThis as any).DBG) console.log(round, 'passed', passed.length/3, 'failed', failed.length/3, failed.slice(0,3).map((v)=>at(v).map((c)=>c.toFixed(2)).join()), JSON.stringify(field.triangle(blocks.near(at(failed[0]),1), at(failed[0]),at(failed[1]),at(failed[2]))));
    if (failed.length === 0) break;
    const divided = divide(done, failed, positions, (middle, outward) =>
      toLevel(field, blocks, middle, outward, levelMm),
    );
    done.splice(0, done.length);
    for (const index of divided.kept) done.push(index);
    open = divided.open;
  }
  return {
    mesh: { positions: Float64Array.from(positions), triangles: Uint32Array.from(done) },
    excessMm,
  };
}

/**
 * Moves a vertex to the distance `levelMm`. From further out it moves toward the body. From further in it moves away from the
 * nearest surface, unless that leads into the solid: then it moves outward until it has the distance. As distances change by
 * no more than the way, no step passes the level.
 */
function toLevel(field: SweptField, blocks: Blocks, from: Vec3, outward: Vec3, levelMm: number): Vec3 {
  let place = from;
  for (let step = 0; step < STEPS_TO_LEVEL; step++) {
    const offMm = levelMm - field.distanceMm(blocks.near(place, 0), place, NEAR_LEVEL_MM);
    if (Math.abs(offMm) < NEAR_LEVEL_MM) break;
    const gradient = field.gradientAt(place);
    const isAhead = offMm < 0 || dot(gradient, outward) > 0;
    place = addScaled(place, isAhead ? gradient : outward, offMm);
  }
  return [Math.fround(place[0]), Math.fround(place[1]), Math.fround(place[2])];
}

/** The cells that can be near, for the cubes of an octree. Computed once. */
class Blocks {
  private readonly field: SweptField;
  private readonly mostMm: number;
  private readonly made = new Map<string, readonly MotionCell[]>();

  constructor(field: SweptField, mostMm: number) {
    this.field = field;
    this.mostMm = mostMm;
  }

  /** Cells of all poses that are within `mostMm` of a ball at `place`. */
  near(place: Vec3, radiusMm: number): readonly MotionCell[] {
    let sizeMm = LEAST_BLOCK_MM;
    while (sizeMm < 4 * radiusMm) sizeMm *= 2;
    return this.block(place, sizeMm);
  }

  /** Those of the cube around `place` with all that reaches out of it by a quarter of its size, from those of the next larger. */
  private block(place: Vec3, sizeMm: number): readonly MotionCell[] {
    const index = place.map((c) => Math.floor(c / sizeMm));
    const key = `${sizeMm} ${index}`;
    const known = this.made.get(key);
    if (known !== undefined) return known;
    const { field } = this;
    const centre = index.map((c) => (c + 0.5) * sizeMm) as unknown as Vec3;
    const outer = sizeMm >= LARGEST_BLOCK_MM ? field.roots : this.block(place, 2 * sizeMm);
    const radius = sizeMm * (Math.sqrt(3) / 2 + 1 / 4);
    // More than `mostMm`, so that the distance of a place further out is found too.
    const cells = field.near(outer, centre, radius, this.mostMm + sizeMm / 2) ?? [];
    const made = cells.length === 0 ? field.roots : cells;
    this.made.set(key, made);
    return made;
  }
}

const meanOf = ([a, b, c]: readonly [Vec3, Vec3, Vec3]): Vec3 => [
  (a[0] + b[0] + c[0]) / 3,
  (a[1] + b[1] + c[1]) / 3,
  (a[2] + b[2] + c[2]) / 3,
];

/** More vertices than a mesh can have. */
const MOST_VERTICES = 2 ** 26;

/**
 * Cuts the longest side of each failed triangle in the middle, and the triangles beside it. `place` gives the place of the new
 * vertex, from the middle and the outward normal of a failed triangle. Returns the triangles that were cut or lie beside a cut as `open`, the rest as
 * `kept`.
 */
function divide(
  done: readonly number[],
  failed: readonly number[],
  positions: number[],
  place: (middle: Vec3, outward: Vec3) => Vec3,
): { kept: number[]; open: number[] } {
  const keyOf = (a: number, b: number): number => Math.min(a, b) * MOST_VERTICES + Math.max(a, b);
  const lengthSq = (a: number, b: number): number =>
    (positions[3 * a] - positions[3 * b]) ** 2 +
    (positions[3 * a + 1] - positions[3 * b + 1]) ** 2 +
    (positions[3 * a + 2] - positions[3 * b + 2]) ** 2;
  const at = (vertex: number): Vec3 => [
    positions[3 * vertex],
    positions[3 * vertex + 1],
    positions[3 * vertex + 2],
  ];
  const cuts = new Map<number, number>();
  for (let i = 0; i < failed.length; i += 3) {
    const corners = [failed[i], failed[i + 1], failed[i + 2]];
    let longest = 0;
    for (let k = 1; k < 3; k++)
      if (lengthSq(corners[k], corners[(k + 1) % 3]) > lengthSq(corners[longest], corners[(longest + 1) % 3]))
        longest = k;
    const [a, b] = [corners[longest], corners[(longest + 1) % 3]];
    if (cuts.has(keyOf(a, b))) continue;
    cuts.set(keyOf(a, b), positions.length / 3);
    const [p, q, r] = corners.map(at);
    const normal = cross(sub(q, p), sub(r, p));
    const size = length(normal);
    const middle = midpoint(at(a), at(b));
    positions.push(...(size > 0 ? place(middle, scale(normal, 1 / size)) : middle.map(Math.fround)));
  }

  const [kept, open]: [number[], number[]] = [[], []];
  for (const list of [done, failed])
    for (let i = 0; i < list.length; i += 3) {
      const corners = [list[i], list[i + 1], list[i + 2]];
      const on = corners.map((corner, k) => cuts.get(keyOf(corner, corners[(k + 1) % 3])));
      const cutSides = on.filter((vertex) => vertex !== undefined).length;
      if (cutSides === 0) kept.push(...corners);
      else open.push(...cutTriangle(corners, on));
    }
  return { kept, open };
}

/** The pieces of a triangle some of whose sides have a vertex in the middle: `on[k]` on the side from corner k. */
function cutTriangle(corners: readonly number[], on: readonly (number | undefined)[]): number[] {
  const first = on.findIndex((vertex) => vertex !== undefined);
  const missing = on.findIndex((vertex) => vertex === undefined);
  const count = on.filter((vertex) => vertex !== undefined).length;
  // Turned so that a single cut is on the first side, and the missing one of two on the last.
  const turn = count === 1 ? first : count === 2 ? (missing + 1) % 3 : 0;
  const [a, b, c] = [0, 1, 2].map((k) => corners[(turn + k) % 3]);
  const [ab, bc, ca] = [0, 1, 2].map((k) => on[(turn + k) % 3] as number);
  if (count === 1) return [a, ab, c, ab, b, c];
  if (count === 2) return [a, ab, c, ab, b, bc, ab, bc, c];
  return [a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca];
}
