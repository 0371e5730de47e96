import type { ClearanceKind } from '../../clearance/clearance.ts';
import { PairQuery } from '../../clearance/query.ts';
import { yieldToOthers } from '../../executors/yieldToOthers.ts';
import { compose, invert } from '../../math/rigid.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { SolvedPose } from '../../mechanism/pose.ts';
import { solvePose } from '../../mechanism/solvePose.ts';
import { loadModeller, type Modeller } from '../../solids/modeller.ts';
import { rigidGroup } from '../../sweep/pivot.ts';
import { meshBeside, type Setup } from '../../sweep/setUp.ts';
import type { AuditedTreatment, AuditOptions, EngineResult, ToAudit } from './auditRequest.ts';
import { type ClockedShare, sharedAtClockings } from './clockings.ts';
import { intendedBetween } from './intended.ts';
import type { Intended } from './intendedContact.ts';
import { enlargedByMm, type Shared, sharedBetween } from './shared.ts';

/** An unexplained volume above this is unintended contact, mm^3. Slivers from the meshes' rounding are far smaller. */
export const LEAST_CONTACT_MM3 = 1;

/** The placement of two solids. `fit`: they never move relative to each other. Clockings in degrees, at ride height. */
export type Placement =
  | { kind: 'fit' }
  | { kind: 'pose'; travelMm: number; steer: number }
  | { kind: 'clocking'; caliperDeg: number; hubDeg: number };

/** Shared volume of a pair at a placement that intended contact does not explain. */
export interface Unexplained {
  at: Placement;
  volumeMm3: number;
  errorMm3: number;
  /** Middle of its largest piece, and that piece's extent along the vehicle's axes; left corner. */
  middle: Vec3;
  extentMm: Vec3;
  /** Result of the clearance engine for the pair; undefined if the pair is not checked. */
  engine: ClearanceKind | undefined;
  /** Whether nothing else reports this contact: the pair is not checked, or the engine reports it as clear. */
  hidden: boolean;
}

/** A pair that has a zone of intended contact or is not checked, and its shared volume. */
export interface AuditedPair {
  /** Indices of the solids. */
  a: number;
  b: number;
  treatment: AuditedTreatment;
  /** The largest volume that the two whole solids share at any placement, and its intended parts. */
  sharedMm3: number;
  explained: readonly { what: string; volumeMm3: number }[];
  /**
   * Enlargement of each region of intended contact. Contact next to a region is not detected up to twice this depth.
   */
  enlargedByMm: number;
  /**
   * The largest hidden volume, or the largest of all if none is hidden; undefined if none is above LEAST_CONTACT_MM3.
   */
  unexplained: Unexplained | undefined;
}

/** An audit of a corner. */
export interface Audit {
  pairs: readonly AuditedPair[];
  /** Number of audited poses, and of poses of the grid that are not reached. */
  poses: number;
  unreachable: number;
  /** Number of audited clockings other than those of the file. */
  clockings: number;
}

/** Every pair that has a zone of intended contact or is not checked. */
const pairsToAudit = ({ pairs, unchecked }: Pick<Setup, 'pairs' | 'unchecked'>): ToAudit[] => [
  ...pairs.flatMap(({ a, b, zones }, checked): ToAudit[] =>
    zones.length === 0 ? [] : [{ a, b, checked, treatment: { kind: 'outsideZones', zones: zones.length } }],
  ),
  ...unchecked.map(
    ({ a, b, why }): ToAudit => ({
      a,
      b,
      checked: undefined,
      treatment: { kind: 'notChecked', why },
    }),
  ),
];

/**
 * Audits a corner: intersects the whole solids of every pair that has a zone of intended contact or is not checked,
 * at the poses of the corner's grid (once for a pair that never moves) and at clockings of caliper and hub. Subtracts
 * the contact that the corner's dimensions explain. The remaining contact is hidden if nothing else reports it.
 * Rejects with the signal's reason when cancelled.
 */
export async function auditCorner(
  setup: Setup,
  { clockingStepDeg, signal, onProgress, onClocking }: AuditOptions = {},
): Promise<Audit> {
  const modeller = await loadModeller();
  const poses = Array.from(setup.travelMm).flatMap((travelMm) =>
    Array.from(setup.steer, (steer) => solvePose(setup.mechanism, travelMm, steer)),
  );
  const solved = poses.filter((pose) => pose.kind === 'solved');
  const rideHeight = solvePose(setup.mechanism, 0, 0);
  if (rideHeight.kind !== 'solved') throw new Error(`ride height is not reached: ${rideHeight.reason}`);
  const toAudit = pairsToAudit(setup);
  const clocked =
    clockingStepDeg === undefined
      ? { shares: [], clockings: 0 }
      : await sharedAtClockings(setup, toAudit, clockingStepDeg, { signal, onClocking });
  const pairs: AuditedPair[] = [];
  for (const [done, pair] of toAudit.entries()) {
    signal?.throwIfAborted();
    const [one, other] = [setup.solids[pair.a], setup.solids[pair.b]];
    const isFit = rigidGroup(one.carrier) === rigidGroup(other.carrier);
    pairs.push(
      auditPair(modeller, setup, pair, {
        poses: isFit ? [rideHeight] : solved,
        isFit,
        clocked: clocked.shares.filter((share) => share.pair === pair),
      }),
    );
    onProgress?.(done + 1, toAudit.length);
    await yieldToOthers();
  }
  return {
    pairs,
    poses: solved.length,
    unreachable: poses.length - solved.length,
    clockings: clocked.clockings,
  };
}

function auditPair(
  modeller: Modeller,
  setup: Setup,
  pair: ToAudit,
  {
    poses,
    isFit,
    clocked,
  }: { poses: readonly SolvedPose[]; isFit: boolean; clocked: readonly ClockedShare[] },
): AuditedPair {
  const { solids, design } = setup;
  const [one, other] = [solids[pair.a], solids[pair.b]];
  const [a, b] = [meshBeside(one, other), meshBeside(other, one)];
  const intended = intendedBetween(design.corner, one, other);
  const found = sharedBetween(modeller, [one, other], intended, poses).map((shared, k) => ({
    shared,
    at: isFit
      ? ({ kind: 'fit' } as const)
      : ({ kind: 'pose', travelMm: poses[k].travelMm, steer: poses[k].steer } as const),
    engine: () => engineAt(setup, pair, poses[k]),
  }));
  // A clocking with contact reported by the study is never used, so it is not audited.
  const turned = clocked
    .filter(({ shared, engine }) => shared.unexplainedMm3 > LEAST_CONTACT_MM3 && engine().isClear)
    .map(({ shared, clockings, engine }) => ({
      shared,
      at: { kind: 'clocking', ...clockings } as const,
      engine,
    }));
  const largest = [...found, ...turned].reduce((most, next) =>
    next.shared.volumeMm3 > most.shared.volumeMm3 ? next : most,
  );
  const unexplained = [...found, ...turned]
    .filter(({ shared }) => shared.unexplainedMm3 > LEAST_CONTACT_MM3)
    .map(({ shared, at, engine }): Unexplained => {
      const answer = engine();
      return {
        at,
        volumeMm3: shared.unexplainedMm3,
        errorMm3: shared.errorMm3,
        middle: shared.middle,
        extentMm: shared.extentMm,
        engine: answer?.kind,
        hidden: answer === undefined || answer.isClear,
      };
    })
    .reduce<Unexplained | undefined>(
      (worst, next) => (worst === undefined || isWorse(next, worst) ? next : worst),
      undefined,
    );
  return {
    a: pair.a,
    b: pair.b,
    treatment: pair.treatment,
    sharedMm3: largest.shared.volumeMm3,
    explained: explainedBy(intended, largest.shared),
    enlargedByMm: enlargedByMm(a, b),
    unexplained,
  };
}

const isWorse = (next: Unexplained, worst: Unexplained): boolean =>
  next.hidden === worst.hidden ? next.volumeMm3 > worst.volumeMm3 : next.hidden;

/** Sums the volumes by description and leaves out zeros. */
function explainedBy(intended: readonly Intended[], { explainedMm3 }: Shared): AuditedPair['explained'] {
  const volumes = new Map<string, number>();
  intended.forEach(({ what }, k) => {
    volumes.set(what, (volumes.get(what) ?? 0) + explainedMm3[k]);
  });
  return [...volumes]
    .filter(([, volumeMm3]) => volumeMm3 > 0)
    .map(([what, volumeMm3]) => ({ what, volumeMm3 }));
}

/** The audit needs contact only, so larger clearances are not measured, mm. */
const LIMIT_MM = 1;

/** Result of the clearance engine for a pair at a pose, with its zones left out; undefined if it is not checked. */
function engineAt(
  setup: Setup,
  pair: ToAudit,
  { carriers, residualMm }: SolvedPose,
): EngineResult | undefined {
  if (pair.checked === undefined) return undefined;
  const { solids } = setup;
  const { a, b } = setup.bodies[pair.checked];
  const query = new PairQuery(a, b);
  query.run(compose(invert(carriers[solids[pair.a].carrier]), carriers[solids[pair.b].carrier]), LIMIT_MM);
  const { kind, distanceMm, errorMm } = query;
  if (kind !== 'separated') return { kind, isClear: kind === 'beyond' };
  return { kind, isClear: distanceMm - errorMm - 2 * residualMm > 0 };
}
