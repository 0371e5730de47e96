import { useEffect, useRef, useState } from 'react';
import { onWorkerDeath } from '../../executors/workerDeath.ts';
import { type Mounting, mountedDesign } from '../../studies/clocking/apply.ts';
import type { SweptCandidate } from '../../studies/clocking/sweepCandidates.ts';
import type { OpenCorner } from '../engine.ts';
import type { FitFound, FoundCandidate } from './fitFound.ts';
import type { SweepReply, SweepRequest } from './sweepWorker.ts';

export type SweepState =
  | { kind: 'none' }
  | { kind: 'running'; done: number; total: number }
  | { kind: 'cancelled' }
  | { kind: 'failed'; why: string }
  /** Ranked by their worst over all travel and lock, best first. */
  | { kind: 'swept'; swept: readonly SweptCandidate<FoundCandidate>[] };

export interface SweptCandidates {
  state: SweepState;
  start(corner: Pick<OpenCorner, 'design' | 'settings'>, leastMarginMm: number | undefined): void;
  cancel(): void;
}

/**
 * Sweeps the candidates of a study over all travel and lock in a worker of its own, when it is asked to. What was swept belongs to
 * the study: with another one, of another corner or other wants, it is gone, and a sweep under way is ended.
 */
export function useSweptCandidates(found: FitFound, mountings: readonly Mounting[]): SweptCandidates {
  const [reached, setReached] = useState<{ of: FitFound; state: SweepState }>();
  const worker = useRef<Worker>(undefined);
  const end = () => {
    worker.current?.terminate();
    worker.current = undefined;
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs only when the study changes or the sheet closes; `end` is new at each render
  useEffect(() => end, [found]);

  return {
    state: reached?.of === found ? reached.state : { kind: 'none' },
    start({ design, settings }, leastMarginMm) {
      end();
      const started = new Worker(new URL('./sweepWorker.ts', import.meta.url), { type: 'module' });
      worker.current = started;
      const set = (state: SweepState) => {
        if (worker.current !== started) return;
        if (state.kind !== 'running') end();
        setReached({ of: found, state });
      };
      onWorkerDeath(started, (why) => set({ kind: 'failed', why }));
      started.addEventListener('message', ({ data }: MessageEvent<SweepReply>) =>
        set(data.kind === 'progress' ? { ...data, kind: 'running' } : data),
      );
      set({ kind: 'running', done: 0, total: found.candidates.length });
      started.postMessage({
        candidates: found.candidates,
        designs: mountings.map((mounting) => mountedDesign(design, mounting)),
        unchanging: found.mounted.map(({ unchanging }) => unchanging),
        leastMarginMm,
        settings,
      } satisfies SweepRequest);
    },
    cancel() {
      if (worker.current === undefined) return;
      end();
      setReached({ of: found, state: { kind: 'cancelled' } });
    },
  };
}
