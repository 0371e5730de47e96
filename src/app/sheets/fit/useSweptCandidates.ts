import type { Remote } from 'comlink';
import { useEffect, useRef, useState } from 'react';
import { type Mounting, mountedDesign } from '../../../studies/clocking/apply.ts';
import type { SweptCandidate } from '../../../studies/clocking/sweepCandidates.ts';
import type { OpenCorner } from '../../state/engine.ts';
import type { FitFound, FoundCandidate } from '../../workers/fit/fitFound.ts';
import type { SweepApi, SweepRequest } from '../../workers/fit/sweepWorker.ts';
import { callOnce, type WorkerCall } from '../../workers/remote.ts';

export type SweepState =
  | { kind: 'none' }
  | { kind: 'running'; done: number; total: number }
  | { kind: 'cancelled' }
  | { kind: 'failed'; why: string }
  /** Ranked by worst margin over all travel and lock, best first. */
  | { kind: 'swept'; swept: readonly SweptCandidate<FoundCandidate>[] };

export interface SweptCandidates {
  state: SweepState;
  start(corner: Pick<OpenCorner, 'design' | 'settings'>, leastMarginMm: number | undefined): void;
  cancel(): void;
}

/**
 * Sweeps the candidates of a study over all travel and lock in its own worker, on request. A new study, of another corner or
 * with other requirements, drops the result and ends a running sweep.
 */
export function useSweptCandidates(found: FitFound, mountings: readonly Mounting[]): SweptCandidates {
  const [reached, setReached] = useState<{ of: FitFound; state: SweepState }>();
  const running = useRef<WorkerCall<unknown>>(undefined);
  const end = () => {
    running.current?.cancel();
    running.current = undefined;
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs only when the study changes or the sheet closes; `end` is new at each render
  useEffect(() => end, [found]);

  return {
    state: reached?.of === found ? reached.state : { kind: 'none' },
    start({ design, settings }, leastMarginMm) {
      end();
      const set = (state: SweepState) => setReached({ of: found, state });
      const onProgress = (done: number, total: number) => set({ kind: 'running', done, total });
      onProgress(0, found.candidates.length);
      const worker = new Worker(new URL('../../workers/fit/sweepWorker.ts', import.meta.url), {
        type: 'module',
      });
      const request: SweepRequest = {
        candidates: found.candidates,
        designs: mountings.map((mounting) => mountedDesign(design, mounting)),
        unchanging: found.mounted.map(({ unchanging }) => unchanging),
        leastMarginMm,
        settings,
      };
      const call = callOnce(worker, (api: Remote<SweepApi>, callback) =>
        api.sweep(request, callback(onProgress)),
      );
      running.current = call;
      call.result.then(
        (swept) => set({ kind: 'swept', swept }),
        ({ message }: Error) => set({ kind: 'failed', why: message }),
      );
    },
    cancel() {
      if (reached?.of !== found || reached.state.kind !== 'running') return;
      end();
      setReached({ of: found, state: { kind: 'cancelled' } });
    },
  };
}
