import { EventEmitter } from 'node:events';
import { syncBuiltinESMExports } from 'node:module';
import { basename } from 'node:path';
import workerThreads, { type Transferable } from 'node:worker_threads';
import { type Request, serve } from '../../src/executors/protocol.ts';
import { type ClockingRequest, serveClocking } from '../../src/studies/clocking/clockingProtocol.ts';
import { type RatesRequest, serveRates } from '../../src/studies/sensitivity/ratesProtocol.ts';
import { type SpaceRequestMessage, serveSpace } from '../../src/studies/sweptSpace/spaceProtocol.ts';

/** What the thread modules of the program do with a request. */
const SERVERS: Record<
  string,
  (post: (reply: object, transfer?: ArrayBuffer[]) => void) => (request: object) => void
> = {
  'nodeWorker.ts': (post) => {
    const answer = serve(post);
    return (request) => answer(request as Request);
  },
  'clockingThread.ts': (post) => {
    const answer = serveClocking(post);
    return (request) => answer(request as ClockingRequest);
  },
  'ratesThread.ts': (post) => {
    const answer = serveRates(post);
    return (request) => answer(request as RatesRequest);
  },
  'spaceThread.ts': (post) => {
    const answer = serveSpace(post);
    return (request) => answer(request as SpaceRequestMessage);
  },
};

/**
 * A worker of Node that runs in this thread. It starts at once, with code that is already compiled; a thread takes a second
 * of processor time for that.
 */
class WorkerHere extends EventEmitter {
  private readonly answer: (request: object) => void;
  private ended = false;

  constructor(_: URL, { workerData }: { workerData: string }) {
    super();
    const server = SERVERS[basename(workerData)];
    if (server === undefined) throw new Error(`no thread module ${workerData}`);
    this.answer = server((reply, transfer = []) =>
      this.later(reply, transfer, (copy) => this.emit('message', copy)),
    );
  }

  postMessage(request: object, transfer: readonly Transferable[] = []): void {
    this.later(request, transfer, (copy) => this.answer(copy));
  }

  terminate(): void {
    this.ended = true;
  }

  private later(message: object, transfer: readonly Transferable[], act: (copy: object) => void): void {
    const copy = structuredClone(message, { transfer: [...transfer] as ArrayBuffer[] });
    setImmediate(() => {
      if (!this.ended) act(copy);
    });
  }
}

const { Worker } = workerThreads;
/** Number of calls that have not ended yet. */
let running = 0;

function setWorker(made: unknown): void {
  Object.assign(workerThreads, { Worker: made });
  syncBuiltinESMExports();
}

/** Runs a function. Workers that it starts run in this thread. */
export async function withWorkersHere<T>(run: () => Promise<T>): Promise<T> {
  if (running++ === 0) setWorker(WorkerHere);
  try {
    return await run();
  } finally {
    if (--running === 0) setWorker(Worker);
  }
}
