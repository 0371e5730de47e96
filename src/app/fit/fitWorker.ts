import type { ClockingCrew } from '../../studies/clocking/clockingCrew.ts';
import { type ClockingStudy, studyClocking } from '../../studies/clocking/study.ts';
import type { Wants } from '../../studies/clocking/wants.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { clockingWorkers } from './clockingWorkers.ts';
import { type FitFound, type FitSeen, fitKey, foundOf, seenOf } from './fitFound.ts';

export type FitRequest =
  /** The corner comes out of a port. */
  | { kind: 'take'; port: MessagePort }
  /** To be studied in place of what was asked before. */
  | { kind: 'study'; wants: Wants };

export type FitReply =
  | { kind: 'taken'; key: string }
  | { kind: 'progress'; done: number; total: number }
  /** What is seen of a study that is not done. */
  | { kind: 'seen'; key: string; wants: Wants; seen: FitSeen }
  | { kind: 'found'; key: string; wants: Wants; found: FitFound }
  | { kind: 'failed'; why: string };

let setup: Setup | undefined;
/** The last study: other wants of the same corner need no pair measured again. */
let known: { of: Setup; leastMarginMm: number | undefined; study: ClockingStudy } | undefined;
let running = new AbortController();
/** Workers of this one, which stays free to be told of other wants. They load while the corner is on its way. */
let crew = clockingWorkers();

function crewAtWork(): ClockingCrew {
  if (!crew.alive) {
    crew.end();
    crew = clockingWorkers();
  }
  return crew;
}

const reply = (message: FitReply) => self.postMessage(message);

async function study(of: Setup, wants: Wants): Promise<void> {
  running.abort();
  running = new AbortController();
  const { signal } = running;
  try {
    const onProgress = (done: number, total: number) => reply({ kind: 'progress', done, total });
    const { leastMarginMm } = wants;
    const isKnown = known?.of === of && known.leastMarginMm === leastMarginMm;
    const done = await studyClocking(of, {
      wants,
      signal,
      onProgress,
      known: isKnown ? known?.study : undefined,
      crew: crewAtWork(),
      onSeen: (so) => reply({ kind: 'seen', key: fitKey(of.design), wants, seen: seenOf(so) }),
    });
    known = { of, leastMarginMm, study: done };
    const found = foundOf(done, of);
    if (!signal.aborted) reply({ kind: 'found', key: fitKey(of.design), wants, found });
  } catch (error) {
    if (!signal.aborted)
      reply({ kind: 'failed', why: error instanceof Error ? error.message : String(error) });
  }
}

self.addEventListener('message', ({ data }: MessageEvent<FitRequest>) => {
  if (data.kind === 'study') {
    if (setup !== undefined) void study(setup, data.wants);
    return;
  }
  data.port.onmessage = ({ data: taken }: MessageEvent<Setup>) => {
    data.port.close();
    setup = taken;
    reply({ kind: 'taken', key: fitKey(taken.design) });
  };
});
