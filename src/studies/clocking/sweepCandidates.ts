import { lowerEndMm } from '../../clearance/reportedClearance.ts';
import type { Design } from '../../design/design.ts';
import type { Findings, PairFinding } from '../../findings/findings.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { type Setup, SetupMemory, setUp } from '../../sweep/setUp.ts';
import { LimitMemory } from '../limitMemory.ts';
import { type MeasurePairs, measurePairsHere } from '../vary/measurePairs.ts';
import { clockedDesign } from './apply.ts';
import { type Clockings, turningOf } from './studyPairs.ts';

/** A candidate over all travel and steering. */
export interface SweptCandidate<C extends Clockings> {
  candidate: C;
  /** Of the pairs whose margin follows a clocking, and of all joints and dampers, which no clocking changes. */
  findings: Findings;
  /** The pair that comes nearest to failing, or fails worst; undefined where all are far. */
  worst: WorstOver | undefined;
  /** Whether of every pair that does not touch it is proved how near it comes, or that it is far. */
  isProved: boolean;
}

/** The worst case of a pair over all travel and steering. */
export interface WorstOver {
  finding: PairFinding;
  names: readonly [string, string];
  /** The least margin that was found, and its error bound. */
  marginMm: number;
  errorMm: number;
  /**
   * The margin is nowhere below this, between the steps included, all errors taken off. Undefined where that is not proved,
   * as of a pair that touches.
   */
  leastMm: number | undefined;
}

export interface SweepCandidatesOptions {
  settings: SweepSettings;
  signal?: AbortSignal;
  /** Measures over all travel and steering; in the calling thread where it is not told. */
  measure?: MeasurePairs;
  /** Candidates done, of all; with a fraction of the one in hand. */
  onProgress?: (done: number, total: number) => void;
}

/**
 * Sweeps candidates over all travel and steering, proof of what lies between the steps included, and ranks them by their
 * worst margin there, best first, those of which not all is proved after the others, and those that touch last. `designOf`: the corner as a candidate is mounted, at any
 * clockings. Only pairs whose margin follows a clocking are swept: the others are the same for all.
 * Rejects with DesignProblems where a candidate cannot be built, and with the signal's reason when cancelled.
 */
export async function sweepCandidates<C extends Clockings>(
  candidates: readonly C[],
  designOf: (candidate: C) => Design,
  { settings, signal, onProgress, measure = measurePairsHere }: SweepCandidatesOptions,
): Promise<SweptCandidate<C>[]> {
  const memory = new SetupMemory();
  const limitMemory = new LimitMemory();
  const swept: SweptCandidate<C>[] = [];
  for (const candidate of candidates) {
    signal?.throwIfAborted();
    const setup = concerned(await setUp(clockedDesign(designOf(candidate), candidate), settings, memory));
    const findings = await measure(setup, limitMemory.of(setup).limits, signal, (share) =>
      onProgress?.(swept.length + share, candidates.length),
    );
    signal?.throwIfAborted();
    swept.push({ candidate, findings, worst: worstOf(setup, findings), isProved: isProved(findings) });
  }
  const group = ({ findings, isProved: proved }: SweptCandidate<C>) =>
    findings.counts.touches > 0 ? 2 : proved ? 0 : 1;
  const rankMm = ({ worst }: SweptCandidate<C>) =>
    worst === undefined ? Number.POSITIVE_INFINITY : knownMm(worst);
  return swept.toSorted(
    (a, b) => group(a) - group(b) || (rankMm(a) === rankMm(b) ? 0 : rankMm(b) - rankMm(a)),
  );
}

/** The corner with the pairs only whose margin follows a clocking. */
function concerned(setup: Setup): Setup {
  const kept = setup.pairs.flatMap((pair, index) => (turningOf(setup, pair).about === 'none' ? [] : [index]));
  return {
    ...setup,
    pairs: kept.map((index) => setup.pairs[index]),
    bodies: kept.map((index) => setup.bodies[index]),
  };
}

function worstOf(setup: Setup, { pairs }: Findings): WorstOver | undefined {
  let worst: WorstOver | undefined;
  for (const finding of pairs) {
    const { a, b } = setup.pairs[finding.pair];
    if (finding.worst === undefined) continue;
    const { clearanceMm, errorMm, marginMm } = finding.worst;
    const { provenMm } = finding;
    const one = {
      finding,
      names: [setup.solids[a].label, setup.solids[b].label] as const,
      marginMm,
      errorMm,
      leastMm:
        provenMm === undefined
          ? undefined
          : lowerEndMm(marginMm, errorMm) - Math.max(0, clearanceMm - provenMm),
    };
    if (worst === undefined || knownMm(one) < knownMm(worst)) worst = one;
  }
  return worst;
}

/** What the margin comes down to as far as it is known. */
export const knownMm = ({ leastMm, marginMm, errorMm }: WorstOver): number =>
  leastMm ?? lowerEndMm(marginMm, errorMm);

const isProved = ({ counts, pairs }: Findings): boolean =>
  counts.unknown === 0 &&
  pairs.every(
    ({ state, worst, provenMm }) => state === 'touches' || worst === undefined || provenMm !== undefined,
  );
