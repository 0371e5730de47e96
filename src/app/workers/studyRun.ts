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

/** Progress is shown no more often: a screen drawn again for each of hundreds of values takes as long as they do. */
const PROGRESS_MS = 100;

/** Runs one study at a time. The newest supersedes a running one. `set` receives each state. */
export class StudyRun<Api, Found> {
  private running: WorkerCall<Found> | undefined;
  private of: StudyOf | undefined;
  private readonly set: (state: StudyState<Found>) => void;

  constructor(set: (state: StudyState<Found>) => void) {
    this.set = set;
  }

  /** Starts a study in a worker that ends with it. `run` calls it. */
  start(
    of: StudyOf,
    worker: Worker,
    run: (api: Remote<Api>, onProgress: OnStudyProgress & ProxyMarked) => PromiseLike<Found>,
  ): void {
    this.startCall(of, (onProgress) =>
      callOnce(worker, (api: Remote<Api>, callback) => run(api, callback(onProgress))),
    );
  }

  /** Starts a study that `begin` calls. */
  startCall(of: StudyOf, begin: (onProgress: OnStudyProgress) => WorkerCall<Found>): void {
    this.running?.cancel();
    const { set } = this;
    const running = (done: number, total: number, what?: string) =>
      set({ kind: 'running', done, total, ...(what === undefined ? {} : { what }), ...of });
    running(0, 0);
    // A worker that outlives its study may still send progress of it, and its failure, once it is superseded.
    const ifNewest =
      <Args extends unknown[]>(report: (...args: Args) => void) =>
      (...args: Args) => {
        if (this.running === call) report(...args);
      };
    const ended = (state: StudyState<Found>) => {
      this.running = undefined;
      set(state);
    };
    let nextMs = 0;
    const call = begin(
      ifNewest((...progress) => {
        if (performance.now() < nextMs) return;
        nextMs = performance.now() + PROGRESS_MS;
        running(...progress);
      }),
    );
    this.running = call;
    this.of = of;
    call.result.then(
      ifNewest((found: Found) => ended({ kind: 'done', found, ...of })),
      ifNewest(({ message }: Error) => ended({ kind: 'failed', why: message, ...of })),
    );
  }

  /** Ends a running study. */
  cancel(): void {
    if (this.running === undefined || this.of === undefined) return;
    this.running.cancel();
    this.running = undefined;
    this.set({ kind: 'cancelled', ...this.of });
  }
}
