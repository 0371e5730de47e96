import { CLEARANCE_KINDS } from '../clearance/clearance.ts';
import { PairQuery } from '../clearance/query.ts';
import { reportedClearance } from '../clearance/reportedClearance.ts';
import type { Carrier } from '../design/schema.ts';
import { compose, invert, type Rigid } from '../math/rigid.ts';
import { alignmentAt } from '../mechanism/alignment.ts';
import type { SolvedPose } from '../mechanism/pose.ts';
import { solvePose } from '../mechanism/solvePose.ts';
import { POSE_STATES } from './result.ts';
import type { Setup } from './setUp.ts';

/** Values of every pair at all steers of one travel, laid out as in SweepResult with one row of steps. */
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

/** Numbers of all carriers at one step. */
export const carrierNumbers = (carriers: readonly Carrier[]): number => carriers.length * 12;

export function emptyRow(pairs: number, steps: number, carriers: readonly Carrier[]): Row {
  return {
    poseState: new Uint8Array(steps),
    carriers: new Float64Array(steps * carrierNumbers(carriers)).fill(Number.NaN),
    residualMm: new Float64Array(steps).fill(Number.NaN),
    roadWheelAngleDeg: new Float64Array(steps).fill(Number.NaN),
    state: new Uint8Array(pairs * steps),
    clearanceMm: new Float64Array(pairs * steps).fill(Number.NaN),
    errorMm: new Float64Array(pairs * steps).fill(Number.NaN),
    points: new Float64Array(pairs * steps * 6).fill(Number.NaN),
  };
}

/** Transfer list for posting a row to another thread. */
export const rowBuffers = (row: Row): ArrayBuffer[] =>
  Object.values(row).map((array: Uint8Array | Float64Array) => array.buffer as ArrayBuffer);

const UNKNOWN = CLEARANCE_KINDS.indexOf('unknown');

/**
 * Measures rows of poses. The queries reuse state from earlier rows, which changes the time of a row but not its
 * values: a row is the same in any order and on any worker.
 */
export class RowSweeper {
  readonly setup: Setup;
  private readonly queries: readonly PairQuery[];
  /** 1 for each fit pair that is already measured. */
  private readonly fitDone: Uint8Array;
  private backward = false;

  constructor(setup: Setup) {
    this.setup = setup;
    this.queries = setup.bodies.map(({ a, b }) => new PairQuery(a, b));
    this.fitDone = new Uint8Array(setup.pairs.length);
  }

  /** Measures every pair at one travel and each of the given steers. */
  sweep(travelMm: number, steers: Float64Array): Row {
    return this.sweepBand([travelMm], steers)[0];
  }

  /**
   * Measures every pair at each of some neighbouring travels and each of the given steers. Pairs are measured one
   * after another, so that a pair's trees stay in the processor's cache. From one steer to the next the travels
   * alternate between up and down: a travel step moves most parts less than a steer step, so more of the query's
   * state stays valid. Every other band runs in reverse, so that its first steer is the last one of the band before.
   */
  sweepBand(travelsMm: readonly number[], steers: Float64Array): Row[] {
    const { setup, queries } = this;
    const steps = steers.length;
    const rows = travelsMm.map(() => emptyRow(setup.pairs.length, steps, setup.mechanism.carriers));
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

  /** Rows and steps of a band in the order of measurement. */
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
    const numbers = carrierNumbers(mechanism.carriers);
    mechanism.carriers.forEach((carrier, c) => {
      row.carriers.set(pose.carriers[carrier], step * numbers + c * 12);
    });
    row.residualMm[step] = pose.residualMm;
    row.roadWheelAngleDeg[step] = alignmentAt(mechanism, pose, tyre).roadWheelAngleDeg;
  }
}

/** At ride height all carrier frames coincide. */
const RIDE_HEIGHT: Rigid = Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0);

/** Writes a query's result at index `at`, with its points moved from part a's frame to the vehicle's. */
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
