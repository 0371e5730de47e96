import { PairQuery } from '../../clearance/query.ts';
import { reportedClearance } from '../../clearance/reportedClearance.ts';
import type { Corner } from '../../design/schema.ts';
import type { PairFinding, TightSpot } from '../../findings/findings.ts';
import { inputOf, lockOf } from '../../layouts/steering.ts';
import { compose, invert } from '../../math/rigid.ts';
import type { Mechanism } from '../../mechanism/mechanism.ts';
import type { PoseResult } from '../../mechanism/pose.ts';
import { solvePose } from '../../mechanism/solvePose.ts';
import type { Place } from '../../proof/proveBetween.ts';
import { pairId } from '../../sweep/pair.ts';
import type { SweepResult } from '../../sweep/result.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { nearPoses } from './nearPoses.ts';
import type { Reading } from './rate.ts';

/** Clearances of changed corners are measured this far beyond the limit of the sweep, mm. */
const BEYOND_LIMIT_MM = 10;

/** A changed clearance is searched for up to this far beyond the file's first, mm; if there is none, up to the limit. */
const LIKELY_CHANGE_MM = 4;

/** A pair of the file's corner, with the poses at which it is measured. */
export interface PosedPair {
  /** Its least clearance at those poses. */
  reading: Reading;
  id: string;
  /** Ids of the parts of its two solids. */
  parts: readonly [string, string];
  poses: readonly Place[];
  /** Whether a pose at an end of travel or steering stays as it is if that end changes, or stays at that end. */
  posesStay: boolean;
}

/** A pair that is not far, at the poses that can be its worst. */
export interface NearPair extends PosedPair {
  finding: PairFinding;
  worst: TightSpot;
}

/**
 * A pair at the poses that can be its worst; undefined if its clearance, or the size of its depth, is not known. `result`:
 * a complete sweep of the corner.
 */
export function nearPair(setup: Setup, finding: PairFinding, result: SweepResult): NearPair | undefined {
  const { pair, worst } = finding;
  if (worst === undefined) return undefined;
  const poses = setup.pairs[pair].moves ? nearPoses(result, pair, worst) : [{ travelMm: 0, steer: 0 }];
  const posed = posedPair(setup, pair, poses, false);
  return posed && { ...posed, finding, worst };
}

/** A pair at some poses; undefined if its clearance at one of them, or the size of its depth, is not known. */
export function posedPair(
  setup: Setup,
  pair: number,
  poses: readonly Place[],
  posesStay: boolean,
): PosedPair | undefined {
  const { design, solids, pairs } = setup;
  const reading = leastAt(setup, pair, poses);
  if (reading === undefined) return undefined;
  const { a, b } = pairs[pair];
  const partOf = (solid: number): string => design.corner.parts[solids[solid].partIndex].id;
  return {
    reading,
    id: pairId(solids, pairs[pair]),
    parts: [partOf(a), partOf(b)],
    poses,
    posesStay,
  };
}

/**
 * The least clearance of a pair in a changed corner, at the poses of the file's; undefined if it is not known at one of
 * them.
 */
export function changedReading(
  file: Corner,
  changed: Setup,
  pair: number,
  { poses, posesStay, reading }: PosedPair,
): Reading | undefined {
  const posesThere = poses.map((pose) => poseIn(changed.design.corner, file, pose, posesStay));
  const likely = leastAt(changed, pair, posesThere, Math.max(0, reading.mm) + LIKELY_CHANGE_MM);
  return likely ?? leastAt(changed, pair, posesThere);
}

/**
 * The least clearance of a pair at some poses; undefined if it is more than `mostMm` at each, or not known at one of them.
 */
function leastAt(
  setup: Setup,
  pair: number,
  poses: readonly Place[],
  mostMm = Number.POSITIVE_INFINITY,
): Reading | undefined {
  const { mechanism, solids, pairs, bodies, settings } = setup;
  const [carrierA, carrierB] = [pairs[pair].a, pairs[pair].b].map((solid) => solids[solid].carrier);
  const query = new PairQuery(bodies[pair].a, bodies[pair].b);
  let least: Reading | undefined;
  let limitMm = Math.min(mostMm, settings.limitMm + BEYOND_LIMIT_MM);
  for (const { travelMm, steer } of poses) {
    const solved = poseAt(mechanism, travelMm, steer);
    if (solved.kind !== 'solved') return undefined;
    const { carriers, residualMm } = solved;
    query.run(compose(invert(carriers[carrierA]), carriers[carrierB]), limitMm);
    if (query.kind === 'beyond') continue;
    if (query.kind === 'unknown') return undefined;
    const { clearanceMm, errorMm } = reportedClearance(query, 2 * residualMm);
    if (errorMm === Number.POSITIVE_INFINITY) return undefined;
    if (least !== undefined && clearanceMm >= least.mm) continue;
    least = { mm: clearanceMm, errorMm };
    // A pose with a larger clearance need not be measured.
    limitMm = Math.max(0, clearanceMm);
  }
  return least;
}

const posesOf = new WeakMap<Mechanism, Map<string, PoseResult>>();

/** As `solvePose`; cached with the mechanism, because many pairs are measured at the same poses. */
function poseAt(mechanism: Mechanism, travelMm: number, steer: number): PoseResult {
  const poses = posesOf.get(mechanism) ?? new Map<string, PoseResult>();
  posesOf.set(mechanism, poses);
  const key = `${travelMm} ${steer}`;
  const pose = poses.get(key) ?? solvePose(mechanism, travelMm, steer);
  poses.set(key, pose);
  return pose;
}

/**
 * A pose of the file's corner in a changed one, which keeps its travel and its steering input. Unless `posesStay`, a pose
 * at an end of travel or steering stays at that end.
 */
function poseIn(
  changed: Corner,
  { suspension: file }: Corner,
  { travelMm, steer }: Place,
  posesStay: boolean,
): Place {
  const { suspension } = changed;
  const lock = lockOf(suspension, steer > 0 ? 'outboard' : 'inboard');
  const kept = lock === 0 ? steer : inputOf(file, steer) / lock;
  if (posesStay) return { travelMm, steer: kept };
  const { bump, droop } = suspension.travel;
  const travel =
    travelMm === file.travel.bump
      ? bump
      : travelMm === -file.travel.droop
        ? -droop
        : Math.max(-droop, Math.min(bump, travelMm));
  const isEnd = steer === 0 || Math.abs(steer) === 1;
  return { travelMm: travel, steer: isEnd ? steer : Math.max(-1, Math.min(1, kept)) };
}
