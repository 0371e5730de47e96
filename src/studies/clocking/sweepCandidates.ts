import type { Design } from '../../design/design.ts';
import type { Findings, PairFinding } from '../../findings/findings.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { type Setup, SetupMemory, setUp } from '../../sweep/setUp.ts';
import { type MeasurePairs, measurePairsHere } from '../vary/measurePairs.ts';
import { clockedDesign } from './apply.ts';
import { type Clockings, turningOf } from './studyPairs.ts';

/** A candidate over all travel and steering. */
export interface SweptCandidate<C extends Clockings> {
  candidate: C;
  /** Of the pairs whose margin follows a clocking. */
  findings: Findings;
  /** The pair that comes nearest to failing, or fails worst; undefined where all are far. */
  worst: WorstOver | undefined;
}

/** The worst case of a pair over all travel and steering. */
export interface WorstOver {
  finding: PairFinding;
  names: readonly [string, string];
  /** The least margin that was found, and its error bound. */
  marginMm: number;
  errorMm: number;
  /** The margin is nowhere below this, between the steps included, all errors taken off. */
  leastMm: number;
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
 * worst margin there, best first, those that touch last. `designOf`: the corner as a candidate is mounted, at any
 * clockings. Only pairs whose margin follows a clocking are swept: the others are the same for all.
 * Rejects with DesignProblems where a candidate cannot be built, and with the signal's reason when cancelled.
 */
export async function sweepCandidates<C extends Clockings>(
  candidates: readonly C[],
  designOf: (candidate: C) => Design,
  { settings, signal, onProgress, measure = measurePairsHere }: SweepCandidatesOptions,
): Promise<SweptCandidate<C>[]> {
  const memory = new SetupMemory();
  const swept: SweptCandidate<C>[] = [];
  for (const candidate of candidates) {
    signal?.throwIfAborted();
    const setup = concerned(await setUp(clockedDesign(designOf(candidate), candidate), settings, memory));
    const findings = await measure(setup, signal, (share) =>
      onProgress?.(swept.length + share, candidates.length),
    );
    signal?.throwIfAborted();
    swept.push({ candidate, findings, worst: worstOf(setup, findings) });
  }
  const touches = ({ findings }: SweptCandidate<C>) => Number(findings.counts.touches > 0);
  const leastMm = ({ worst }: SweptCandidate<C>) => worst?.leastMm ?? Number.POSITIVE_INFINITY;
  return swept.toSorted(
    (a, b) => touches(a) - touches(b) || (leastMm(a) === leastMm(b) ? 0 : leastMm(b) - leastMm(a)),
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
    const unprovedMm = Math.max(0, clearanceMm - (finding.provenMm ?? clearanceMm));
    const one = {
      finding,
      names: [setup.solids[a].label, setup.solids[b].label] as const,
      marginMm,
      errorMm,
      leastMm: marginMm - errorMm - unprovedMm,
    };
    if (worst === undefined || one.leastMm < worst.leastMm) worst = one;
  }
  return worst;
}
