import { parseDesign } from '../design/parse.ts';
import { DesignProblems, type Problem } from '../design/problem.ts';
import { pendingResult, placeRow } from '../sweep/assemble.ts';
import type { SweepResult, SweepSettings } from '../sweep/result.ts';
import { type Row, RowSweeper, rowBuffers } from '../sweep/row.ts';
import { type Setup, setUp } from '../sweep/setUp.ts';
import { coarseToFine } from '../sweep/steps.ts';
import type { SweepOptions } from './options.ts';

/** What a worker is told. The first message is always `open`. */
export type Request =
  | { kind: 'open'; designText: string; settings: SweepSettings }
  /** All poses of one travel step. */
  | { kind: 'row'; travelIndex: number }
  /** One pose anywhere; answered with a row of one step. */
  | { kind: 'pose'; travelMm: number; steer: number };

export type Reply =
  | { kind: 'opened' }
  | { kind: 'row'; travelIndex: number; row: Row }
  | { kind: 'pose'; travelMm: number; steer: number; row: Row }
  | { kind: 'problems'; problems: readonly Problem[] }
  | { kind: 'failed'; message: string };

/** One worker as this thread sees it, whatever platform it runs on. */
export interface WorkerHandle {
  post(request: Request): void;
  /** Replies, and the words of a worker that died. */
  listen(onReply: (reply: Reply) => void, onDeath: (why: string) => void): void;
  terminate(): void;
}

/** The worker's side: answers requests in order. Errors are told as messages, never thrown. */
export function serve(reply: (message: Reply, transfer: ArrayBuffer[]) => void): (request: Request) => void {
  let sweeper: RowSweeper | undefined;
  let queue: Promise<void> = Promise.resolve();

  const answer = async (request: Request): Promise<void> => {
    if (request.kind === 'open') {
      const parsed = parseDesign(request.designText);
      if (parsed.kind === 'bad') throw new DesignProblems(parsed.problems);
      sweeper = new RowSweeper(await setUp(parsed.design, request.settings));
      reply({ kind: 'opened' }, []);
      return;
    }
    if (sweeper === undefined) throw new Error('a worker was asked to measure before a corner was opened');
    if (request.kind === 'row') {
      const { travelIndex } = request;
      const row = sweeper.sweep(sweeper.setup.travelMm[travelIndex], sweeper.setup.steer);
      reply({ kind: 'row', travelIndex, row }, rowBuffers(row));
    } else {
      const { travelMm, steer } = request;
      const row = sweeper.sweep(travelMm, Float64Array.of(steer));
      reply({ kind: 'pose', travelMm, steer, row }, rowBuffers(row));
    }
  };

  return (request) => {
    queue = queue.then(() =>
      answer(request).catch((error: unknown) => {
        if (error instanceof DesignProblems) reply({ kind: 'problems', problems: error.problems }, []);
        else reply({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }, []);
      }),
    );
  };
}

/**
 * Deals the rows of a sweep out to workers, coarse to fine, and puts the answers together. Each worker opens the
 * design itself. Rejects with the signal's reason when cancelled, with DesignProblems when the corner is bad, with an
 * Error when a worker dies; workers are ended in every case, and no partial result is returned.
 */
export function sweepWithWorkers(
  setup: Setup,
  makeWorker: () => WorkerHandle,
  workerCount: number,
  options: SweepOptions = {},
): Promise<SweepResult> {
  const { signal, onProgress, onPartial } = options;
  const result = pendingResult(setup);
  const order = coarseToFine(setup.travelMm.length);
  const designText = JSON.stringify(setup.design.source);
  const workers: WorkerHandle[] = [];
  let next = 0;
  let done = 0;

  return new Promise<SweepResult>((resolve, reject) => {
    const fail = (error: unknown) => reject(error);
    const abort = () => fail(signal?.reason);
    if (signal?.aborted) return abort();
    signal?.addEventListener('abort', abort, { once: true });

    for (let w = 0; w < Math.min(workerCount, order.length); w++) {
      const worker = makeWorker();
      workers.push(worker);
      const askForRow = () => {
        if (next < order.length) worker.post({ kind: 'row', travelIndex: order[next++] });
      };
      worker.listen(
        (reply) => {
          if (reply.kind === 'problems') return fail(new DesignProblems(reply.problems));
          if (reply.kind === 'failed') return fail(new Error(reply.message));
          if (reply.kind === 'row') {
            placeRow(result, reply.travelIndex, reply.row);
            done += 1;
            onProgress?.(done, order.length);
            onPartial?.(result);
            if (done === order.length) return resolve(result);
          }
          askForRow();
        },
        (why) => fail(new Error(`a sweep worker died: ${why}`)),
      );
      worker.post({ kind: 'open', designText, settings: setup.settings });
    }
    return undefined;
  }).finally(() => {
    for (const worker of workers) worker.terminate();
  });
}
