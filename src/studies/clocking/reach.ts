import type { Design } from '../../design/design.ts';
import { yieldToOthers } from '../../executors/yieldToOthers.ts';
import { SolidMaker } from '../../solids/catalogue.ts';
import { type AssemblyStudy, studyAssembly } from '../assembly/assembly.ts';
import { blockFinder, readyBodies } from '../assembly/blocked.ts';
import { clockedDesign } from './apply.ts';
import type { Clockings } from './studyPairs.ts';

/** Which bolts of a corner can be reached at a clocking. */
export interface ReachAt<C extends Clockings> extends AssemblyStudy {
  candidate: C;
}

export interface ReachOptions {
  /** Default 0.1 mm: fine enough for a wrench, and fast. */
  chordToleranceMm?: number;
  /** Cancels the check; the promise then rejects with the signal's reason. */
  signal?: AbortSignal;
  /** Number of candidates done and number of all. */
  onProgress?: (done: number, total: number) => void;
}

/**
 * Checks which bolts of a corner can be put in, turned and taken out at each of some clockings, at their steps of
 * assembly and at ride height. Covers all sets, including wrenches without a given direction, which the clocking
 * study leaves out. Parts that do not depend on the clockings are built once. `designOf`: the corner as a candidate
 * is mounted, at any clockings. Rejects as `studyAssembly` does, with DesignProblems if the corner is invalid at a
 * clocking, and with the signal's reason when cancelled.
 */
export async function reachAt<C extends Clockings>(
  candidates: readonly C[],
  designOf: (candidate: C) => Design,
  { chordToleranceMm = 0.1, signal, onProgress }: ReachOptions = {},
): Promise<ReachAt<C>[]> {
  const maker = new SolidMaker();
  const ready = readyBodies();
  const results: ReachAt<C>[] = [];
  for (const candidate of candidates) {
    signal?.throwIfAborted();
    const { corner } = clockedDesign(designOf(candidate), candidate);
    const solids = await maker.make(corner, chordToleranceMm);
    const known = { solids, find: blockFinder(corner, solids, ready) };
    results.push({ candidate, ...(await studyAssembly(corner, { chordToleranceMm, known })) });
    onProgress?.(results.length, candidates.length);
    await yieldToOthers();
  }
  return results;
}
