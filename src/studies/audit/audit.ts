import type { ClearanceKind } from '../../clearance/clearance.ts';
import { PairQuery } from '../../clearance/query.ts';
import type { Carrier } from '../../design/schema.ts';
import { compose, invert } from '../../math/rigid.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { SolvedPose } from '../../mechanism/pose.ts';
import { solvePose } from '../../mechanism/solvePose.ts';
import { loadModeller, type Modeller } from '../../solids/modeller.ts';
import { meshBeside, type Setup } from '../../sweep/setUp.ts';
import { type ClockedShare, sharedAtClockings } from './clockings.ts';
import { type Intended, intendedBetween } from './intended.ts';
import { enlargedByMm, type Shared, sharedBetween } from './shared.ts';

/** More than this, unexplained, is a contact that is not intended, mm^3. Slivers of the meshes' rounding are far below. */
export const LEAST_CONTACT_MM3 = 1;

/** Where two solids stand. `fit`: they never move against each other. Clockings in degrees, at ride height. */
export type Placement =
  | { kind: 'fit' }
  | { kind: 'pose'; travelMm: number; steer: number }
  | { kind: 'clocking'; caliperDeg: number; hubDeg: number };

/** What a pair shares at a placement that intended contact does not explain. */
export interface Unexplained {
  at: Placement;
  volumeMm3: number;
  errorMm3: number;
  /** Of its largest piece: middle, and extent along the vehicle's axes; of the left corner. */
  middle: Vec3;
  extentMm: Vec3;
  /** What the clearance engine answers for the pair there; undefined where the pair is not checked. */
  engine: ClearanceKind | undefined;
  /** Nothing else reports this contact: the pair is not checked, or the engine calls it clear there. */
  hidden: boolean;
}

/** A pair that has a zone of intended contact or is not checked, and what it shares. */
export interface AuditedPair {
  /** Indices of the solids. */
  a: number;
  b: number;
  /** Zones outside which it is measured; why it is not checked. */
  treatment: { kind: 'outsideZones'; zones: number } | { kind: 'notChecked'; why: string };
  /** The largest volume that the two whole solids share at any placement, and what explains it there. */
  sharedMm3: number;
  explained: readonly { what: string; volumeMm3: number }[];
  /** Enlargement of each region of intended contact: beside one, contact up to twice as deep is not seen. */
  enlargedByMm: number;
  /** The largest that is hidden, else the largest; undefined where none is above LEAST_CONTACT_MM3. */
  unexplained: Unexplained | undefined;
}

/** An audit of a corner. */
export interface Audit {
  pairs: readonly AuditedPair[];
  /** Poses that were audited, and those of the grid that are not reached. */
  poses: number;
  unreachable: number;
  /** Clockings that were audited beside those that are drawn. */
  clockings: number;
}

export interface AuditOptions {
  /** Step of the clockings, degrees; undefined to leave them out. */
  clockingStepDeg?: number | undefined;
  signal?: AbortSignal;
  /** Pairs done, of all that are audited; before them clockings done, of all. */
  onProgress?: (done: number, total: number) => void;
  onClocking?: (done: number, total: number) => void;
}

/** A pair to audit. `checked`: its index among the checked pairs, if it is one. */
export interface ToAudit {
  a: number;
  b: number;
  checked: number | undefined;
  treatment: AuditedPair['treatment'];
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
 * Audits a corner: intersects the two whole solids of every pair that has a zone of intended contact or is not checked, at
 * the poses of its grid (once where they never move against each other) and at clockings of caliper and hub, and takes away
 * what the corner's dimensions say is intended. What is left is hidden where nothing else reports it.
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
    const isFit = rigid(one.carrier) === rigid(other.carrier);
    pairs.push(
      auditPair(modeller, setup, pair, {
        poses: isFit ? [rideHeight] : solved,
        isFit,
        clocked: clocked.shares.filter((share) => share.pair === pair),
      }),
    );
    onProgress?.(done + 1, toAudit.length);
    await breathe();
  }
  return {
    pairs,
    poses: solved.length,
    unreachable: poses.length - solved.length,
    clockings: clocked.clockings,
  };
}

/** Gives way to other work. */
const breathe = () => new Promise((resolve) => setTimeout(resolve, 0));

/** Carriers that never move against each other: the wheel turns on the upright, and is audited as its full turn. */
const rigid = (carrier: Carrier): Carrier => (carrier === 'wheel' ? 'upright' : carrier);

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
  // Where the study reports contact itself, nobody mounts the caliper.
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

/** Volumes of the same words together, those of nothing left out. */
function explainedBy(intended: readonly Intended[], { explainedMm3 }: Shared): AuditedPair['explained'] {
  const volumes = new Map<string, number>();
  intended.forEach(({ what }, k) => {
    volumes.set(what, (volumes.get(what) ?? 0) + explainedMm3[k]);
  });
  return [...volumes]
    .filter(([, volumeMm3]) => volumeMm3 > 0)
    .map(([what, volumeMm3]) => ({ what, volumeMm3 }));
}

/** The engine's answer, and whether that reports the pair as clear. */
export interface EngineAnswer {
  kind: ClearanceKind;
  isClear: boolean;
}

/** Contact is sought: the answer further away does not matter, mm. */
const LIMIT_MM = 1;

/** The answer of the clearance engine for a pair at a pose, its zones left out; undefined where it is not checked. */
function engineAt(
  setup: Setup,
  pair: ToAudit,
  { carriers, residualMm }: SolvedPose,
): EngineAnswer | undefined {
  if (pair.checked === undefined) return undefined;
  const { solids } = setup;
  const { a, b } = setup.bodies[pair.checked];
  const query = new PairQuery(a, b);
  query.run(compose(invert(carriers[solids[pair.a].carrier]), carriers[solids[pair.b].carrier]), LIMIT_MM);
  const { kind, distanceMm, errorMm } = query;
  if (kind !== 'separated') return { kind, isClear: kind === 'beyond' };
  return { kind, isClear: distanceMm - errorMm - 2 * residualMm > 0 };
}
