import { mountedDesign, mountingsOf } from '../../studies/clocking/apply.ts';
import type { ClockingCrew } from '../../studies/clocking/clockingCrew.ts';
import { type MountingChoice, mountingsFor } from '../../studies/clocking/mountingChoice.ts';
import { type MountedStudy, mountedSetups, studyMountings } from '../../studies/clocking/studyMountings.ts';
import type { Wants } from '../../studies/clocking/wants.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { clockingWorkers } from './clockingWorkers.ts';
import { firstCrew } from './firstCrew.ts';
import { type FitFound, type FitSeen, fitKey, foundOf, seenOf } from './fitFound.ts';

export type FitRequest =
  /** The corner comes out of a port. */
  | { kind: 'take'; port: MessagePort }
  /** The corner taken last, which may be on its way still, is to be studied in place of what was asked before. */
  | { kind: 'study'; wants: Wants; choice: MountingChoice };

export type FitReply =
  | { kind: 'progress'; done: number; total: number }
  /** What is seen of a study that is not done. */
  | { kind: 'seen'; wants: Wants; seen: FitSeen }
  | { kind: 'found'; wants: Wants; found: FitFound }
  | { kind: 'failed'; why: string };

let taken: Promise<Setup> | undefined;
/**
 * The last study of each mounting of the corner, by its key: other wants need no pair measured again, nor does the corner
 * once it is mounted so.
 */
let known = new Map<string, MountedStudy & { leastMarginMm: number | undefined }>();
let running = new AbortController();
/** Workers of this one, which stays free to be told of other wants. They load while the corner is on its way. */
let crew = firstCrew;

function crewAtWork(): ClockingCrew {
  if (!crew.alive) {
    crew.end();
    crew = clockingWorkers();
  }
  return crew;
}

const reply = (message: FitReply) => self.postMessage(message);

async function study(taking: Promise<Setup>, wants: Wants, choice: MountingChoice): Promise<void> {
  running.abort();
  running = new AbortController();
  const { signal } = running;
  try {
    const { leastMarginMm } = wants;
    const of = await taking;
    signal.throwIfAborted();
    if (known.size > 0) {
      const all = mountingsOf(of.design).map((mounting) => fitKey(mountedDesign(of.design, mounting)));
      known = new Map([...known].filter(([key]) => all.includes(key)));
    }
    const setups = await mountedSetups(
      of,
      mountingsFor(of.design, choice),
      (design) => known.get(fitKey(design))?.setup,
    );
    signal.throwIfAborted();
    const done = await studyMountings(setups, {
      wants,
      signal,
      onProgress: (pairs, total) => reply({ kind: 'progress', done: pairs, total }),
      knownOf({ design }) {
        const last = known.get(fitKey(design));
        return last?.leastMarginMm === leastMarginMm ? last?.study : undefined;
      },
      crew: crewAtWork(),
      onSeen: (so, seenSetup) => reply({ kind: 'seen', wants, seen: seenOf(so, seenSetup) }),
      onStudied: (one) => known.set(fitKey(one.setup.design), { ...one, leastMarginMm }),
    });
    const found = foundOf(done);
    if (!signal.aborted) reply({ kind: 'found', wants, found });
  } catch (error) {
    if (!signal.aborted)
      reply({ kind: 'failed', why: error instanceof Error ? error.message : String(error) });
  }
}

/** Does what it is told. */
export function answer(data: FitRequest): void {
  if (data.kind === 'study') {
    if (taken !== undefined) void study(taken, data.wants, data.choice);
    return;
  }
  const { port } = data;
  taken = new Promise((resolve) => {
    port.onmessage = ({ data: setup }: MessageEvent<Setup>) => {
      port.close();
      resolve(setup);
    };
  });
}
