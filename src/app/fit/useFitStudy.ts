import { useEffect, useMemo, useRef, useState } from 'react';
import { onWorkerDeath } from '../../executors/workerDeath.ts';
import type { Wants } from '../../studies/clocking/wants.ts';
import type { OpenCorner } from '../engine.ts';
import { type FitFound, type FitSeen, fitKey } from './fitFound.ts';
import type { FitReply, FitRequest } from './fitWorker.ts';

export interface FitState {
  /** Of the corner and the wants in hand; undefined until it is found. */
  found: FitFound | undefined;
  /** What is seen of it before. */
  seen: FitSeen | undefined;
  progress: { done: number; total: number } | undefined;
  failure: string | undefined;
}

const NOTHING: FitState = { found: undefined, seen: undefined, progress: undefined, failure: undefined };

/**
 * Studies the clockings of a corner in a worker of its own, anew when the corner or the wants change; a corner that is only
 * turned keeps its study.
 */
export function useFitStudy(corner: OpenCorner, wants: Wants): FitState {
  const [state, setState] = useState(NOTHING);
  const worker = useRef<Worker>(undefined);
  const key = useMemo(() => fitKey(corner.design), [corner]);
  const asked = useRef({ key, wants });
  asked.current = { key, wants };
  const [held, setHeld] = useState<string>();

  useEffect(() => {
    const made = new Worker(new URL('./fitWorker.ts', import.meta.url), { type: 'module' });
    onWorkerDeath(made, (why) => setState({ ...NOTHING, failure: why }));
    made.addEventListener('message', ({ data }: MessageEvent<FitReply>) => {
      if (data.kind === 'taken') setHeld(data.key);
      if (data.kind === 'progress')
        setState((before) => ({ ...before, progress: { done: data.done, total: data.total } }));
      if (data.kind === 'failed') setState({ ...NOTHING, failure: data.why });
      if (data.kind !== 'found' && data.kind !== 'seen') return;
      const isAsked =
        data.key === asked.current.key && JSON.stringify(data.wants) === JSON.stringify(asked.current.wants);
      if (!isAsked) return;
      if (data.kind === 'found') setState({ ...NOTHING, found: data.found });
      else setState((before) => ({ ...before, seen: data.seen }));
    });
    worker.current = made;
    return () => made.terminate();
  }, []);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the key says of which corner it is
  useEffect(() => {
    setState(NOTHING);
    const { port1, port2 } = new MessageChannel();
    worker.current?.postMessage({ kind: 'take', port: port2 } satisfies FitRequest, [port2]);
    corner.share(port1).catch((error: Error) => setState({ ...NOTHING, failure: error.message }));
  }, [key]);

  useEffect(() => {
    if (held !== key) return;
    setState(NOTHING);
    worker.current?.postMessage({ kind: 'study', wants } satisfies FitRequest);
  }, [held, key, wants]);
  return state;
}
