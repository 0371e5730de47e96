import type { Body } from '../clearance/body.ts';
import type { CornerFiles } from '../design/assets.ts';
import { parseDesign } from '../design/parse.ts';
import { limitsOf } from '../proof/limits.ts';
import {
  type DividedProof,
  type LockedOut,
  type OpenCellData,
  type Outcome,
  type PairSteps,
  type PartResult,
  type ProvedPoses,
  Prover,
  runToEnd,
} from '../proof/prove.ts';
import { BetweenProver, type Place } from '../proof/proveBetween.ts';
import type { MeasuredLimit } from '../sweep/limit.ts';
import { type PairContact, pairContact } from '../sweep/pairContact.ts';
import type { SweepSettings } from '../sweep/result.ts';
import { type Row, RowSweeper, rowBuffers } from '../sweep/row.ts';
import {
  type BodySlot,
  type Built,
  buildCorner,
  makeBodies,
  type Setup,
  SetupMemory,
  withBodies,
} from '../sweep/setUp.ts';
import { DesignProblems, type Problem } from '../units/problem.ts';

/** Requests to a worker. All but `open`, `setBuilt`, `setCorner` and `receiveCorner` need a corner. */
export type Request =
  /** Builds a corner from its files. Its bodies are built when it is first measured. */
  | { kind: 'open'; files: CornerFiles; settings: SweepSettings }
  /** Sets a built corner. Its bodies are built by `bodies` requests, or all when it is first measured. */
  | { kind: 'setBuilt'; built: Built }
  /** Builds some bodies of the corner set by `setBuilt`. */
  | { kind: 'bodies'; slots: readonly BodySlot[] }
  /** Sets a corner whose bodies were built elsewhere. */
  | { kind: 'setCorner'; setup: Setup }
  /** Sends its corner, some 30 MB, through a port directly to another worker. */
  | { kind: 'sendCorner'; port: MessagePort }
  /** Sets the corner that arrives at a port. */
  | { kind: 'receiveCorner'; port: MessagePort }
  /** Measures all poses of some neighbouring travel steps. */
  | { kind: 'band'; travelIndexes: readonly number[] }
  /** Measures any single pose; the reply is a row of one step. */
  | { kind: 'pose'; travelMm: number; steer: number }
  /** Measures the limits of joints and dampers, at the corner's steps and between them. */
  | { kind: 'limits' }
  /** Sets the poses of a complete sweep for the proofs of its pairs. */
  | { kind: 'startProof'; poses: ProvedPoses; toleranceMm: number | undefined }
  | { kind: 'prove'; pair: number; steps: PairSteps }
  /** Searches one part of a divided proof. */
  | {
      kind: 'part';
      pair: number;
      proof: Pick<DividedProof, 'state' | 'partBudget'>;
      cells: readonly OpenCellData[];
    }
  /** Merges the results of all parts of a divided proof. */
  | { kind: 'merge'; pair: number; proof: Pick<DividedProof, 'state'>; results: readonly PartResult[] }
  /**
   * Proves a lower bound of a pair's clearance from each place to the next. `leastMm`: the smaller clearance of each
   * two places, above which no bound is proved.
   */
  | { kind: 'between'; pair: number; places: readonly Place[]; leastMm: readonly number[] }
  /** Computes the contact of a pair at a pose. */
  | { kind: 'contact'; pair: number; travelMm: number; steer: number };

/** Sent a few times a second before the reply to `prove` or `part`: number of cells searched so far. */
export interface ProgressMessage {
  kind: 'progress';
  cells: number;
}

/** Time between two progress messages, ms. */
const PROGRESS_INTERVAL_MS = 200;

/** A reply has the kind of its request, or gives the reason why the request failed. */
export type Reply =
  | { kind: 'open'; built: Built }
  | { kind: 'setBuilt' }
  | { kind: 'bodies'; bodies: readonly Body[] }
  | { kind: 'setCorner' }
  | { kind: 'sendCorner' }
  | { kind: 'receiveCorner' }
  | { kind: 'band'; rows: readonly Row[] }
  | { kind: 'pose'; row: Row }
  | { kind: 'limits'; limits: readonly MeasuredLimit[] }
  | { kind: 'startProof'; lockedOut: readonly LockedOut[] }
  | { kind: 'prove'; outcome: Outcome }
  | { kind: 'part'; result: PartResult }
  | { kind: 'merge'; outcome: Outcome }
  | { kind: 'between'; lowerMm: readonly number[] }
  | { kind: 'contact'; contact: PairContact | undefined }
  | ProgressMessage
  | { kind: 'problems'; problems: readonly Problem[] }
  | { kind: 'failed'; message: string };

/** The worker's side: replies to requests in order. Errors are sent as replies, never thrown. */
export function serve(reply: (message: Reply, transfer: ArrayBuffer[]) => void): (request: Request) => void {
  const handler = new RequestHandler(reply);
  let queue: Promise<void> = Promise.resolve();
  return (request) => {
    queue = queue.then(() =>
      handler.handle(request).catch((error: unknown) => {
        if (error instanceof DesignProblems) reply({ kind: 'problems', problems: error.problems }, []);
        else reply({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }, []);
      }),
    );
  };
}

/** Replies to requests about the current corner. */
class RequestHandler {
  private readonly reply: (message: Reply, transfer: ArrayBuffer[]) => void;
  /** The current corner, if its bodies are built here. */
  private built: Built | undefined;
  /** Builds the setup of the current corner. */
  private makeSetup: (() => Setup) | undefined;
  private ready: RowSweeper | undefined;
  private prover: Prover | undefined;
  private betweenProver: BetweenProver | undefined;
  private readonly memory = new SetupMemory();

  constructor(reply: (message: Reply, transfer: ArrayBuffer[]) => void) {
    this.reply = reply;
  }

  async handle(request: Request): Promise<void> {
    switch (request.kind) {
      case 'open': {
        const parsed = parseDesign(request.files.text, request.files.assets);
        if (parsed.kind === 'bad') throw new DesignProblems(parsed.problems);
        const built = await buildCorner(parsed.design, request.settings, this.memory);
        // The reply does not wait for the search trees, which take as long as the solids.
        this.setBuilt(built);
        return this.reply({ kind: 'open', built }, []);
      }
      case 'setBuilt':
        this.setBuilt(request.built);
        return this.reply({ kind: 'setBuilt' }, []);
      case 'bodies': {
        if (this.built === undefined)
          throw new Error('the worker has no built corner yet: send setBuilt before bodies');
        return this.reply({ kind: 'bodies', bodies: makeBodies(this.built, request.slots, this.memory) }, []);
      }
      case 'setCorner':
        this.setSetup(() => request.setup);
        return this.reply({ kind: 'setCorner' }, []);
      case 'sendCorner':
        request.port.postMessage(this.sweeper.setup);
        return this.reply({ kind: 'sendCorner' }, []);
      case 'receiveCorner': {
        const setup = await messageFrom(request.port);
        this.setSetup(() => setup);
        return this.reply({ kind: 'receiveCorner' }, []);
      }
      case 'band': {
        const { setup } = this.sweeper;
        const travelsMm = request.travelIndexes.map((travelIndex) => setup.travelMm[travelIndex]);
        const rows = this.sweeper.sweepBand(travelsMm, setup.steer);
        return this.reply({ kind: 'band', rows }, rows.flatMap(rowBuffers));
      }
      case 'pose': {
        const row = this.sweeper.sweep(request.travelMm, Float64Array.of(request.steer));
        return this.reply({ kind: 'pose', row }, rowBuffers(row));
      }
      case 'limits': {
        const { design, mechanism, travelMm, steer } = this.sweeper.setup;
        return this.reply(
          { kind: 'limits', limits: limitsOf(design.corner, mechanism, travelMm, steer) },
          [],
        );
      }
      case 'startProof':
        this.prover = new Prover(this.sweeper.setup, request.poses, request.toleranceMm);
        return this.reply({ kind: 'startProof', lockedOut: this.prover.lockedOut }, []);
      case 'prove': {
        const { pair, steps } = request;
        return this.reply(
          { kind: 'prove', outcome: this.runReporting(this.currentProver.begin(pair, steps)) },
          [],
        );
      }
      case 'part': {
        const { pair, proof, cells } = request;
        const search = this.currentProver.searchPart(pair, proof, cells);
        return this.reply({ kind: 'part', result: this.runReporting(search) }, []);
      }
      case 'merge': {
        const { pair, proof, results } = request;
        return this.reply({ kind: 'merge', outcome: this.currentProver.merge(pair, proof, results) }, []);
      }
      case 'between': {
        this.betweenProver ??= new BetweenProver(this.sweeper.setup);
        const prover = this.betweenProver;
        const { pair, places, leastMm } = request;
        const lowerMm = leastMm.map((mm, k) => prover.lowerMm(pair, places[k], places[k + 1], mm));
        return this.reply({ kind: 'between', lowerMm }, []);
      }
      case 'contact': {
        const contact = await pairContact(this.sweeper.setup, request.pair, request);
        return this.reply({ kind: 'contact', contact }, []);
      }
    }
  }

  private setBuilt(built: Built): void {
    this.setSetup(() => withBodies(built, this.memory));
    this.built = built;
  }

  private setSetup(makeSetup: () => Setup): void {
    this.built = undefined;
    this.makeSetup = makeSetup;
    this.ready = undefined;
    this.prover = undefined;
    this.betweenProver = undefined;
  }

  private get currentProver(): Prover {
    if (this.prover === undefined)
      throw new Error('the worker has no sweep to prove yet: send startProof first');
    return this.prover;
  }

  /** Runs a proof or a part of one to its end, and reports progress. */
  private runReporting<T>(steps: Generator<number, T>): T {
    let lastMs = performance.now();
    return runToEnd(steps, (cells) => {
      if (performance.now() - lastMs < PROGRESS_INTERVAL_MS) return;
      lastMs = performance.now();
      this.reply({ kind: 'progress', cells }, []);
    });
  }

  private get sweeper(): RowSweeper {
    if (this.makeSetup === undefined)
      throw new Error('the worker has no corner to measure yet: open or send one first');
    this.ready ??= new RowSweeper(this.makeSetup());
    return this.ready;
  }
}

function messageFrom(port: MessagePort): Promise<Setup> {
  return new Promise((resolve) => {
    port.onmessage = ({ data }: MessageEvent<Setup>) => {
      port.close();
      resolve(data);
    };
  });
}
