import type { ProxyMarked, Remote } from 'comlink';
import { callOnce, type WorkerCall } from './remote.ts';

/** The corner of a study, and the name of what is studied. */
export interface StudyOf {
  designHash: string;
  label: string;
}

/** A study and its result. `what` is counted, if the worker names it: "values changed". */
export type StudyState<Found> =
  | { kind: 'none' }
  | ({ kind: 'running'; done: number; total: number; what?: string } & StudyOf)
  | ({ kind: 'cancelled' } & StudyOf)
  | ({ kind: 'failed'; why: string } & StudyOf)
  | ({ kind: 'done'; found: Found } & StudyOf);

/** Receives the number done, the number of all, and what is counted. */
export type OnStudyProgress = (done: number, total: number, what?: string) => void;

/** Runs one study at a time, each in its own worker. The newest supersedes a running one. `set` receives each state. */
export class StudyRun<Api, Found> {
  private running: WorkerCall<Found> | undefined;
  private of: StudyOf | undefined;
  private readonly set: (state: StudyState<Found>) => void;

  constructor(set: (state: StudyState<Found>) => void) {
    this.set = set;
  }

  /** Starts a study. `run` calls it in `worker`. */
  start(
    of: StudyOf,
    worker: Worker,
    run: (api: Remote<Api>, onProgress: OnStudyProgress & ProxyMarked) => PromiseLike<Found>,
  ): void {
    this.running?.cancel();
    const { set } = this;
    const onProgress: OnStudyProgress = (done, total, what) =>
      set({ kind: 'running', done, total, ...(what === undefined ? {} : { what }), ...of });
    onProgress(0, 0);
    const call = callOnce(worker, (api: Remote<Api>, callback) => run(api, callback(onProgress)));
    this.running = call;
    this.of = of;
    call.result
      .then(
        (found) => set({ kind: 'done', found, ...of }),
        ({ message }: Error) => set({ kind: 'failed', why: message, ...of }),
      )
      .finally(() => {
        if (this.running === call) this.running = undefined;
      });
  }

  /** Ends a running study. */
  cancel(): void {
    if (this.running === undefined || this.of === undefined) return;
    this.running.cancel();
    this.running = undefined;
    this.set({ kind: 'cancelled', ...this.of });
  }
}
