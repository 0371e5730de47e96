import { parseDesign } from '../design/parse.ts';
import { DesignProblems, type Problem } from '../design/problem.ts';
import type { MeasuredLimit } from '../sweep/limit.ts';
import { limitsOf } from '../sweep/limits.ts';
import { type PairContact, pairContact } from '../sweep/pairContact.ts';
import { type LockedOut, type PairSteps, type ProvedPair, type ProvedPoses, Prover } from '../sweep/prove.ts';
import { BetweenProver, type Place } from '../sweep/proveBetween.ts';
import type { SweepSettings } from '../sweep/result.ts';
import { type Row, RowSweeper, rowBuffers } from '../sweep/row.ts';
import { type Built, buildCorner, type Setup, SetupMemory, withBodies } from '../sweep/setUp.ts';

/** What a worker is told. It must hold a corner (`open`, `take` or `receive`) before it is asked about one. */
export type Request =
  /** Builds a corner from its file; made ready to be measured once it is first asked to be. */
  | { kind: 'open'; designText: string; settings: SweepSettings }
  /** Holds a corner that was built elsewhere. */
  | { kind: 'take'; setup: Setup }
  /** Puts its corner into a port, past the thread that asks: it is some 30 MB. */
  | { kind: 'share'; port: MessagePort }
  /** Holds the corner that comes out of a port. */
  | { kind: 'receive'; port: MessagePort }
  /** All poses of some neighbouring travel steps. */
  | { kind: 'band'; travelIndexes: readonly number[] }
  /** One pose anywhere; answered with a row of one step. */
  | { kind: 'pose'; travelMm: number; steer: number }
  /** The limits of its joints and dampers, at its steps and between them. */
  | { kind: 'limits' }
  /** The poses of a whole sweep, of which pairs are then to be proved. */
  | { kind: 'poses'; poses: ProvedPoses; toleranceMm: number | undefined }
  | { kind: 'prove'; pair: number; steps: PairSteps }
  /**
   * What a pair keeps on the way from each place to the next; of each two the lesser clearance is `leastMm`, and no more
   * is proved.
   */
  | { kind: 'between'; pair: number; places: readonly Place[]; leastMm: readonly number[] }
  /** Where the parts of a pair meet at a pose. */
  | { kind: 'contact'; pair: number; travelMm: number; steer: number };

/** Sent before the answer to a `prove` request, a few times a second: cells looked at so far. */
export interface Underway {
  kind: 'underway';
  cells: number;
}

/** Time between two `underway` messages, ms. */
const UNDERWAY_MS = 200;

/** The answer to a request is of the same kind, or says why there is none. */
export type Reply =
  | { kind: 'open'; built: Built }
  | { kind: 'take' }
  | { kind: 'share' }
  | { kind: 'receive' }
  | { kind: 'band'; rows: readonly Row[] }
  | { kind: 'pose'; row: Row }
  | { kind: 'limits'; limits: readonly MeasuredLimit[] }
  | { kind: 'poses'; lockedOut: readonly LockedOut[] }
  | { kind: 'prove'; proved: ProvedPair }
  | { kind: 'between'; lowerMm: readonly number[] }
  | { kind: 'contact'; contact: PairContact | undefined }
  | Underway
  | { kind: 'problems'; problems: readonly Problem[] }
  | { kind: 'failed'; message: string };

/** The worker's side: answers requests in order. Errors are told as messages, never thrown. */
export function serve(reply: (message: Reply, transfer: ArrayBuffer[]) => void): (request: Request) => void {
  const desk = new Desk(reply);
  let queue: Promise<void> = Promise.resolve();
  return (request) => {
    queue = queue.then(() =>
      desk.answer(request).catch((error: unknown) => {
        if (error instanceof DesignProblems) reply({ kind: 'problems', problems: error.problems }, []);
        else reply({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }, []);
      }),
    );
  };
}

/** Answers requests about the corner that it holds. */
class Desk {
  private readonly reply: (message: Reply, transfer: ArrayBuffer[]) => void;
  /** Of the corner that it holds. */
  private makeSetup: (() => Setup) | undefined;
  private ready: RowSweeper | undefined;
  private prover: Prover | undefined;
  private betweenProver: BetweenProver | undefined;
  private readonly memory = new SetupMemory();

  constructor(reply: (message: Reply, transfer: ArrayBuffer[]) => void) {
    this.reply = reply;
  }

  async answer(request: Request): Promise<void> {
    switch (request.kind) {
      case 'open': {
        const parsed = parseDesign(request.designText);
        if (parsed.kind === 'bad') throw new DesignProblems(parsed.problems);
        const built = await buildCorner(parsed.design, request.settings, this.memory);
        // Its picture need not wait for the search trees, on which as much time goes as on the solids.
        this.hold(() => withBodies(built, this.memory));
        return this.reply({ kind: 'open', built }, []);
      }
      case 'take':
        this.hold(() => request.setup);
        return this.reply({ kind: 'take' }, []);
      case 'share':
        request.port.postMessage(this.sweeper.setup);
        return this.reply({ kind: 'share' }, []);
      case 'receive': {
        const setup = await messageFrom(request.port);
        this.hold(() => setup);
        return this.reply({ kind: 'receive' }, []);
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
      case 'poses':
        this.prover = new Prover(this.sweeper.setup, request.poses, request.toleranceMm);
        return this.reply({ kind: 'poses', lockedOut: this.prover.lockedOut }, []);
      case 'prove': {
        if (this.prover === undefined) throw new Error('a worker was asked to prove before it had a sweep');
        let lastMs = performance.now();
        const proved = this.prover.prove(request.pair, request.steps, (cells) => {
          if (performance.now() - lastMs < UNDERWAY_MS) return;
          lastMs = performance.now();
          this.reply({ kind: 'underway', cells }, []);
        });
        return this.reply({ kind: 'prove', proved }, []);
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

  private hold(makeSetup: () => Setup): void {
    this.makeSetup = makeSetup;
    this.ready = undefined;
    this.prover = undefined;
    this.betweenProver = undefined;
  }

  private get sweeper(): RowSweeper {
    if (this.makeSetup === undefined)
      throw new Error('a worker was asked to measure before a corner was opened');
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
