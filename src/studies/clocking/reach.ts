import type { Design } from '../../design/design.ts';
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
  /** 0.1 mm unless told: fine enough for a wrench, and quick. */
  chordToleranceMm?: number;
  /** Ends it early; the promise is then rejected with the signal's reason. */
  signal?: AbortSignal;
  /** Candidates done, of all. */
  onProgress?: (done: number, total: number) => void;
}

/** Gives way to other work. */
const breathe = () => new Promise((resolve) => setTimeout(resolve, 0));

/**
 * Which bolts of a corner can be put in, turned and taken out at each of some clockings, at their steps of assembly and at ride
 * height: all sets, and wrenches that may come from anywhere, which the study of clockings leaves out. What a turn of caliper
 * and hub leaves as it is is made once. `designOf`: the corner as a candidate is mounted, at any clockings. Rejects as
 * `studyAssembly` does, with DesignProblems where the file is not sound at a clocking, and with the signal's reason when
 * cancelled.
 */
export async function reachAt<C extends Clockings>(
  candidates: readonly C[],
  designOf: (candidate: C) => Design,
  { chordToleranceMm = 0.1, signal, onProgress }: ReachOptions = {},
): Promise<ReachAt<C>[]> {
  const maker = new SolidMaker();
  const ready = readyBodies();
  const told: ReachAt<C>[] = [];
  for (const candidate of candidates) {
    signal?.throwIfAborted();
    const { corner } = clockedDesign(designOf(candidate), candidate);
    const solids = await maker.make(corner, chordToleranceMm);
    const known = { solids, find: blockFinder(corner, solids, ready) };
    told.push({ candidate, ...(await studyAssembly(corner, { chordToleranceMm, known })) });
    onProgress?.(told.length, candidates.length);
    await breathe();
  }
  return told;
}
