import { mountedDesign, mountingsOf } from '../../../studies/clocking/apply.ts';
import type { ClockingPool } from '../../../studies/clocking/clockingPool.ts';
import { type MountingChoice, mountingsFor } from '../../../studies/clocking/mountingChoice.ts';
import {
  type MountedStudy,
  mountedSetups,
  studyMountings,
} from '../../../studies/clocking/studyMountings.ts';
import type { Wants } from '../../../studies/clocking/wants.ts';
import type { Setup } from '../../../sweep/setUp.ts';
import { clockingWorkers } from './clockingWorkers.ts';
import { firstPool } from './firstPool.ts';
import { type FitFound, type FitPreview, fitKey, foundOf, previewOf } from './fitFound.ts';

let taken: Promise<Setup> | undefined;
/**
 * The last study of each mounting of the corner, by its key. A study with other requirements reuses its measurements, and so
 * does the corner after it is mounted that way.
 */
let known = new Map<string, MountedStudy & { leastMarginMm: number | undefined }>();
let running = new AbortController();
/** Measures the pairs, so that this worker can react to new requirements. Loads while the corner is on its way. */
let pool = firstPool;

function currentPool(): ClockingPool {
  if (!pool.alive) {
    pool.end();
    pool = clockingWorkers();
  }
  return pool;
}

/** Takes the corner that comes out of a port. */
export function take(port: MessagePort): void {
  taken = new Promise((resolve) => {
    port.onmessage = ({ data: setup }: MessageEvent<Setup>) => {
      port.close();
      resolve(setup);
    };
  });
}

/**
 * Studies the corner taken last, which may still be on its way. It supersedes a running study, which returns undefined.
 * Rejects with an Error if the study fails.
 */
export async function study(
  wants: Wants,
  choice: MountingChoice,
  onProgress: (done: number, total: number) => void,
  onPreview: (preview: FitPreview) => void,
): Promise<FitFound | undefined> {
  running.abort();
  running = new AbortController();
  const { signal } = running;
  if (taken === undefined) return undefined;
  try {
    const { leastMarginMm } = wants;
    const of = await taken;
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
      onProgress,
      knownOf({ design }) {
        const last = known.get(fitKey(design));
        return last?.leastMarginMm === leastMarginMm ? last?.study : undefined;
      },
      pool: currentPool(),
      onPreview: (so, seenSetup) => onPreview(previewOf(so, seenSetup)),
      onStudied: (one) => known.set(fitKey(one.setup.design), { ...one, leastMarginMm }),
    });
    return signal.aborted ? undefined : foundOf(done);
  } catch (error) {
    if (signal.aborted) return undefined;
    throw error;
  }
}
