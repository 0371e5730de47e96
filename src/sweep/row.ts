import { CLEARANCE_KINDS } from '../clearance/clearance.ts';
import { PairQuery } from '../clearance/query.ts';
import { reportedClearance } from '../clearance/reportedClearance.ts';
import { CARRIERS } from '../design/schema.ts';
import { compose, invert, type Rigid } from '../math/rigid.ts';
import { alignmentAt } from '../mechanism/alignment.ts';
import type { SolvedPose } from '../mechanism/pose.ts';
import { solvePose } from '../mechanism/solvePose.ts';
import { POSE_STATES } from './result.ts';
import type { Setup } from './setUp.ts';

/** Values of every pair at the poses of one travel, laid out as in SweepResult with one row of steps. */
export interface Row {
  poseState: Uint8Array;
  carriers: Float64Array;
  residualMm: Float64Array;
  roadWheelAngleDeg: Float64Array;
  state: Uint8Array;
  clearanceMm: Float64Array;
  errorMm: Float64Array;
  points: Float64Array;
}

export const CARRIER_NUMBERS = CARRIERS.length * 12;

export function emptyRow(pairs: number, steps: number): Row {
  return {
    poseState: new Uint8Array(steps),
    carriers: new Float64Array(steps * CARRIER_NUMBERS).fill(Number.NaN),
    residualMm: new Float64Array(steps).fill(Number.NaN),
    roadWheelAngleDeg: new Float64Array(steps).fill(Number.NaN),
    state: new Uint8Array(pairs * steps),
    clearanceMm: new Float64Array(pairs * steps).fill(Number.NaN),
    errorMm: new Float64Array(pairs * steps).fill(Number.NaN),
    points: new Float64Array(pairs * steps * 6).fill(Number.NaN),
  };
}

/** The transfer list of a row. */
export const rowBuffers = (row: Row): ArrayBuffer[] =>
  Object.values(row).map((array: Uint8Array | Float64Array) => array.buffer as ArrayBuffer);

const UNKNOWN = CLEARANCE_KINDS.indexOf('unknown');

/**
 * Measures rows of poses. What queries remember of other rows changes the time that a row takes, never a bit of it, so
 * that it comes out the same whoever computes it, beside whichever others, and in whatever order.
 */
export class RowSweeper {
  readonly setup: Setup;
  private readonly queries: readonly PairQuery[];
  /** Pairs whose carriers never move against each other, once measured. */
  private readonly fitDone: Uint8Array;
  private backward = false;

  constructor(setup: Setup) {
    this.setup = setup;
    this.queries = setup.bodies.map(({ a, b }) => new PairQuery(a, b));
    this.fitDone = new Uint8Array(setup.pairs.length);
  }

  /** Every pair at one travel and each of the given steers. */
  sweep(travelMm: number, steers: Float64Array): Row {
    return this.sweepBand([travelMm], steers)[0];
  }

  /**
   * Every pair at each of some neighbouring travels and each of the given steers. One pair after the other goes through
   * the band, so that its trees stay at hand, up and down along the travels from one steer to the next: a step of travel
   * moves most parts less than a step of steer, so that more of what a query remembers holds. Every other band is gone
   * through backward, so that the first steer is the last of the band before.
   */
  sweepBand(travelsMm: readonly number[], steers: Float64Array): Row[] {
    const { setup, queries } = this;
    const steps = steers.length;
    const rows = travelsMm.map(() => emptyRow(setup.pairs.length, steps));
    const poses = travelsMm.map((travelMm) =>
      Array.from(steers, (steer) => solvePose(setup.mechanism, travelMm, steer)),
    );
    rows.forEach((row, r) => {
      poses[r].forEach((pose, step) => {
        row.poseState[step] = POSE_STATES.indexOf(pose.kind);
        if (pose.kind === 'solved') this.writePose(pose, row, step);
      });
    });
    const motions = new Map<string, (Rigid | undefined)[][]>();
    const order = this.orderOf(rows.length, steps);
    setup.pairs.forEach((pair, p) => {
      const query = queries[p];
      const a = setup.solids[pair.a].carrier;
      const b = setup.solids[pair.b].carrier;
      const key = `${a} ${b}`;
      const motion =
        motions.get(key) ??
        poses.map((posesOfRow) =>
          posesOfRow.map((pose) =>
            pose.kind === 'solved' ? compose(invert(pose.carriers[a]), pose.carriers[b]) : undefined,
          ),
        );
      motions.set(key, motion);
      for (const [r, step] of order) {
        const row = rows[r];
        const pose = poses[r][step];
        const at = p * steps + step;
        const aFromB = motion[r][step];
        if (pose.kind !== 'solved' || aFromB === undefined) {
          row.state[at] = UNKNOWN;
          continue;
        }
        if (pair.moves) {
          query.run(aFromB, setup.settings.limitMm);
        } else if (this.fitDone[p] === 0) {
          query.run(RIDE_HEIGHT, setup.settings.limitMm);
          this.fitDone[p] = 1;
        }
        write(query, row, at, pose.carriers[a], pair.moves ? 2 * pose.residualMm : 0);
      }
    });
    return rows;
  }

  /** Each row and step of a band in the order in which they are measured. */
  private orderOf(rows: number, steps: number): [row: number, step: number][] {
    const order = Array.from({ length: rows * steps }, (_, k): [number, number] => {
      const step = Math.floor(k / rows);
      return [step % 2 === 0 ? k % rows : rows - 1 - (k % rows), step];
    });
    if (this.backward) order.reverse();
    this.backward = !this.backward;
    return order;
  }

  private writePose(pose: SolvedPose, row: Row, step: number): void {
    const { mechanism, tyre } = this.setup;
    CARRIERS.forEach((carrier, c) => {
      row.carriers.set(pose.carriers[carrier], step * CARRIER_NUMBERS + c * 12);
    });
    row.residualMm[step] = pose.residualMm;
    row.roadWheelAngleDeg[step] = alignmentAt(mechanism, pose, tyre).roadWheelAngleDeg;
  }
}

/** All carriers' frames are one at ride height. */
const RIDE_HEIGHT: Rigid = Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0);

/** Puts what a query found at `at`, its points moved from part a's frame to the vehicle's. */
function write(query: PairQuery, row: Row, at: number, vehicleFromA: Rigid, poseErrorMm: number): void {
  row.state[at] = CLEARANCE_KINDS.indexOf(query.kind);
  if (query.kind === 'unknown') return;
  if (query.kind === 'beyond') {
    row.clearanceMm[at] = Number.POSITIVE_INFINITY;
    return;
  }
  const { clearanceMm, errorMm } = reportedClearance(query, poseErrorMm);
  row.clearanceMm[at] = clearanceMm;
  row.errorMm[at] = errorMm;
  const t = vehicleFromA;
  for (const [point, first] of [
    [query.pointA, 0],
    [query.pointB, 3],
  ] as const) {
    for (let r = 0; r < 3; r++) {
      row.points[at * 6 + first + r] =
        t[4 * r] * point[0] + t[4 * r + 1] * point[1] + t[4 * r + 2] * point[2] + t[4 * r + 3];
    }
  }
}
