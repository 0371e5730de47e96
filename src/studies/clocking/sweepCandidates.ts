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
  /** Findings of the pairs that depend on a clocking, and of all joints and dampers, which depend on none. */
  findings: Findings;
  /** The pair with the smallest margin; undefined if all pairs are far. */
  worst: WorstOver | undefined;
  /** Whether every pair either touches, is far, or has a proven bound. */
  isProved: boolean;
}

/** The worst case of a pair over all travel and steering. */
export interface WorstOver {
  finding: PairFinding;
  names: readonly [string, string];
  /** The smallest margin found, and its error bound. */
  marginMm: number;
  errorMm: number;
  /**
   * Proven lower bound of the margin, between the steps too, less all errors. Undefined without a proof, as for a
   * pair that touches.
   */
  leastMm: number | undefined;
}

export interface SweepCandidatesOptions {
  settings: SweepSettings;
  signal?: AbortSignal;
  /** Measures over all travel and steering; by default in the calling thread. */
  measure?: MeasurePairs;
  /** Number of candidates done, with the fraction of the current one, and number of all. */
  onProgress?: (done: number, total: number) => void;
}

/**
 * Sweeps candidates over all travel and steering, with the proof between the steps, and ranks them by their worst
 * margin, best first. Candidates without a complete proof come after the others, and those that touch come last. Only
 * pairs that depend on a clocking are swept: the others are the same for all candidates. `designOf`: the corner as a
 * candidate is mounted, at any clockings. Rejects with DesignProblems if a candidate cannot be built, and with the
 * signal's reason when cancelled.
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
    const setup = withClockedPairs(
      await setUp(clockedDesign(designOf(candidate), candidate), settings, memory),
    );
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

/** The corner with only the pairs that depend on a clocking. */
function withClockedPairs(setup: Setup): Setup {
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

/** The proven margin, or without a proof the lower end of the error bar. */
export const knownMm = ({ leastMm, marginMm, errorMm }: WorstOver): number =>
  leastMm ?? lowerEndMm(marginMm, errorMm);

const isProved = ({ counts, pairs }: Findings): boolean =>
  counts.unknown === 0 &&
  pairs.every(
    ({ state, worst, provenMm }) => state === 'touches' || worst === undefined || provenMm !== undefined,
  );
