import type { Remote } from 'comlink';
import { create } from 'zustand';
import type { OpenCorner } from '../../state/engine.ts';
import type { FoundRemedies, RemedyApi } from '../../workers/remedy/remedyWorker.ts';
import { callOnce, type WorkerCall } from '../../workers/remote.ts';

/** The corner of a search, and the pair. */
interface Of {
  designHash: string;
  label: string;
}

export type RemedyState =
  | { kind: 'none' }
  | ({ kind: 'running'; done: number; total: number } & Of)
  | ({ kind: 'cancelled' } & Of)
  | ({ kind: 'failed'; why: string } & Of)
  | ({ kind: 'done'; found: FoundRemedies } & Of);

/** The search for remedies and its result. Kept while sheets open and close, never part of a file. */
export const useRemedy = create<{ state: RemedyState }>(() => ({ state: { kind: 'none' } }));

let running: WorkerCall<unknown> | undefined;

/** Starts a search in its own worker. It supersedes a running one. */
export function findRemedies(
  { design, settings }: Pick<OpenCorner, 'design' | 'settings'>,
  between: readonly [string, string],
  label: string,
): void {
  running?.cancel();
  const of = { designHash: design.hash, label };
  const set = (state: RemedyState) => useRemedy.setState({ state });
  const onProgress = (done: number, total: number) => set({ kind: 'running', done, total, ...of });
  onProgress(0, 0);
  const worker = new Worker(new URL('../../workers/remedy/remedyWorker.ts', import.meta.url), {
    type: 'module',
  });
  const call = callOnce(worker, (api: Remote<RemedyApi>, callback) =>
    api.find(design, settings, between, callback(onProgress)),
  );
  running = call;
  call.result.then(
    (found) => set({ kind: 'done', found, ...of }),
    ({ message }: Error) => set({ kind: 'failed', why: message, ...of }),
  );
}

/** Ends a running search. */
export function cancelRemedies(): void {
  running?.cancel();
  running = undefined;
  const { state } = useRemedy.getState();
  if (state.kind === 'running')
    useRemedy.setState({ state: { kind: 'cancelled', designHash: state.designHash, label: state.label } });
}
