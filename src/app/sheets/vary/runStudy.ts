import type { Remote } from 'comlink';
import type { OpenCorner } from '../../state/engine.ts';
import { callOnce, type WorkerCall } from '../../workers/remote.ts';
import type { Offered } from '../../workers/vary/offered.ts';
import type { TypedRange } from '../../workers/vary/typedAxis.ts';
import type { VaryApi } from '../../workers/vary/varyWorker.ts';
import { useVary, type VaryState } from './varyStore.ts';

let running: WorkerCall<unknown> | undefined;

function end(): void {
  running?.cancel();
  running = undefined;
}

/** Starts a study of the typed values in its own worker. It supersedes a running study. */
export function startStudy(
  { design, settings }: Pick<OpenCorner, 'design' | 'settings'>,
  { name, label }: Offered,
  typed: TypedRange,
): void {
  end();
  const of = { designHash: design.hash, label };
  const set = (state: VaryState) => useVary.setState({ state });
  const onProgress = (done: number, total: number) => set({ kind: 'running', done, total, ...of });
  onProgress(0, 0);
  const worker = new Worker(new URL('../../workers/vary/varyWorker.ts', import.meta.url), { type: 'module' });
  const call = callOnce(worker, (api: Remote<VaryApi>, callback) =>
    api.vary({ design, settings, name, typed }, callback(onProgress)),
  );
  running = call;
  call.result.then(
    (result) => set({ kind: 'done', result, ...of }),
    ({ message }: Error) => set({ kind: 'failed', why: message, ...of }),
  );
}

/** Ends a running study. The typed values stay. */
export function cancelStudy(): void {
  end();
  const { state } = useVary.getState();
  if (state.kind === 'running')
    useVary.setState({ state: { kind: 'cancelled', designHash: state.designHash, label: state.label } });
}
