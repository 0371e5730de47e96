import type { Design } from '../../design/design.ts';
import { parseDesign } from '../../design/parse.ts';
import { DesignProblems } from '../../design/problem.ts';
import { proveInProcess, sweepInProcess } from '../../executors/inProcess.ts';
import type { Findings, PairFinding } from '../../findings/findings.ts';
import { findingsOf } from '../../findings/findingsOf.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { type Setup, SetupMemory, setUp } from '../../sweep/setUp.ts';
import { clockedSource } from './apply.ts';
import { type Clockings, drawnClockings, turningOf } from './studyPairs.ts';

/** A candidate over all travel and steering. */
export interface SweptCandidate<C extends Clockings> {
  candidate: C;
  /** Of the pairs whose margin follows a clocking. */
  findings: Findings;
  /** The pair that comes nearest to failing, or fails worst, with its names; undefined where all are far. */
  worst: { finding: PairFinding; names: readonly [string, string]; marginMm: number } | undefined;
}

export interface SweepCandidatesOptions {
  settings: SweepSettings;
  signal?: AbortSignal;
  /** Candidates done, of all. */
  onProgress?: (done: number, total: number) => void;
}

/**
 * Sweeps candidates over all travel and steering, proof of what lies between the steps included, and ranks them by their
 * worst margin there, best first. Only pairs whose margin follows a clocking are swept: the others are the same for all.
 * Rejects with DesignProblems where a candidate cannot be built, and with the signal's reason when cancelled.
 */
export async function sweepCandidates<C extends Clockings>(
  design: Design,
  candidates: readonly C[],
  { settings, signal, onProgress }: SweepCandidatesOptions,
): Promise<SweptCandidate<C>[]> {
  const memory = new SetupMemory();
  const drawn = drawnClockings(design);
  const swept: SweptCandidate<C>[] = [];
  for (const candidate of candidates) {
    signal?.throwIfAborted();
    const parsed = parseDesign(JSON.stringify(clockedSource(design.source, drawn, candidate)));
    if (parsed.kind === 'bad') throw new DesignProblems(parsed.problems);
    const setup = concerned(await setUp(parsed.design, settings, memory));
    const result = await sweepInProcess(setup, { signal });
    const findings = findingsOf(result, await proveInProcess(setup, result, { signal }));
    swept.push({ candidate, findings, worst: worstOf(setup, findings) });
    onProgress?.(swept.length, candidates.length);
  }
  const rank = ({ findings, worst }: SweptCandidate<C>) =>
    findings.counts.touches > 0 ? Number.NEGATIVE_INFINITY : (worst?.marginMm ?? Number.POSITIVE_INFINITY);
  return swept.toSorted((a, b) => (rank(a) === rank(b) ? 0 : rank(b) - rank(a)));
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

function worstOf(setup: Setup, { pairs }: Findings): SweptCandidate<Clockings>['worst'] {
  let worst: SweptCandidate<Clockings>['worst'];
  for (const finding of pairs) {
    const { a, b, targetMm, allowanceMm } = setup.pairs[finding.pair];
    if (finding.worst === undefined) continue;
    const { clearanceMm, errorMm } = finding.worst;
    const leastMm = Math.min(clearanceMm, finding.provenMm ?? clearanceMm) - errorMm;
    const marginMm = leastMm - targetMm - allowanceMm;
    if (worst === undefined || marginMm < worst.marginMm)
      worst = { finding, names: [setup.solids[a].label, setup.solids[b].label], marginMm };
  }
  return worst;
}
