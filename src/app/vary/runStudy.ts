import { onWorkerDeath } from '../../executors/workerDeath.ts';
import type { OpenCorner } from '../engine.ts';
import type { TypedRange } from './asked.ts';
import type { Offered } from './offered.ts';
import { useVary, type VaryState } from './varyStore.ts';
import type { VaryReply, VaryRequest } from './varyWorker.ts';

let worker: Worker | undefined;

function end(): void {
  worker?.terminate();
  worker = undefined;
}

/** Studies what was typed in a worker of its own, in place of a study that is still under way. */
export function startStudy(
  { design, settings }: Pick<OpenCorner, 'design' | 'settings'>,
  { name, label }: Offered,
  typed: TypedRange,
): void {
  end();
  const of = { designHash: design.hash, label };
  const set = (state: VaryState) => useVary.setState({ state });
  const started = new Worker(new URL('./varyWorker.ts', import.meta.url), { type: 'module' });
  worker = started;
  const settle = (state: VaryState) => {
    if (worker !== started) return;
    end();
    set(state);
  };
  onWorkerDeath(started, (why) => settle({ kind: 'failed', why, ...of }));
  started.addEventListener('message', ({ data }: MessageEvent<VaryReply>) => {
    if (data.kind !== 'progress') settle({ ...data, ...of });
    else if (worker === started) set({ kind: 'running', done: data.done, total: data.total, ...of });
  });
  set({ kind: 'running', done: 0, total: 0, ...of });
  started.postMessage({ design, settings, name, typed } satisfies VaryRequest);
}

/** Ends a study that is under way; what was typed stays. */
export function cancelStudy(): void {
  end();
  const { state } = useVary.getState();
  if (state.kind === 'running')
    useVary.setState({ state: { kind: 'cancelled', designHash: state.designHash, label: state.label } });
}
