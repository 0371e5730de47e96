import { pendingResult, placeRow } from '../sweep/assemble.ts';
import type { MeasuredLimit } from '../sweep/limit.ts';
import type { PairContact } from '../sweep/pairContact.ts';
import { type LockedOut, type Proof, type ProvedPair, stepsOfPair } from '../sweep/prove.ts';
import type { Place } from '../sweep/proveBetween.ts';
import type { SweepResult, SweepSettings } from '../sweep/result.ts';
import type { Row } from '../sweep/row.ts';
import type { Built, Setup } from '../sweep/setUp.ts';
import { bandsCoarseToFine } from '../sweep/steps.ts';
import { Member, type WorkerHandle } from './member.ts';
import type { ProofOptions, SweepOptions } from './options.ts';
import { provingOrder } from './provingOrder.ts';

/** A worker that is still busy with work that was cancelled is ended after this time, ms, and replaced. */
const GRACE_MS = 800;

/** Requests that a worker has in hand at once, so that it need not wait for a busy thread between two. */
const IN_HAND = 2;

/** What a crew works on. */
interface Held {
  built: Built;
  /** Gives a member the corner. */
  give: (member: Member) => Promise<unknown>;
  /** Of each member, when it holds the corner. */
  ready: Promise<unknown>[];
  /** The rows to be swept first, where the builder sweeps them before it hands the corner on. */
  firstBand?: Promise<readonly Row[]>;
  /** Called once the crew holds another corner. */
  onSuperseded: (() => void)[];
}

const superseded = () => new Error('another corner has been opened');

/**
 * Workers that hold one corner at a time, and sweep and prove it between them. Rows and pairs are dealt out as workers
 * come free; as each comes out the same whoever computes it, so does the whole. A corner that is read from its file is
 * built by one worker more, which keeps what it built for the next one, and stays free to measure single poses.
 *
 * A sweep or proof that is cancelled rejects with the signal's reason, one of a corner that the crew holds no more with
 * an Error, and answers still under way are dropped; a worker that does not come to an end with them soon is replaced. One
 * whose worker dies rejects with an Error, and the crew is not `alive` any more. No partial result is ever returned.
 *
 * Tried first: workers that each build the corner from its file. On two cores both then spend as long on building as on
 * a third of their sweep, and the modeller is loaded twice; a copy of what one has built takes 40 ms.
 */
export class Crew {
  private readonly makeWorker: () => WorkerHandle;
  private readonly toHand: (setup: Setup) => Setup;
  private readonly members: Member[];
  private builder: Member | undefined;
  private held: Held | undefined;
  /** How many contacts it was asked for. */
  private contacts = 0;

  /** `toHand`: what the workers are handed of a corner that this thread has built; the corner itself unless given. */
  constructor(
    makeWorker: () => WorkerHandle,
    workers: number,
    toHand: (setup: Setup) => Setup = (setup) => setup,
  ) {
    this.makeWorker = makeWorker;
    this.toHand = toHand;
    this.members = Array.from({ length: Math.max(1, workers) }, () => new Member(makeWorker()));
  }

  get alive(): boolean {
    return [...this.members, ...(this.builder === undefined ? [] : [this.builder])].every(
      ({ alive }) => alive,
    );
  }

  /**
   * Builds the corner of a file. Rejects with DesignProblems when the corner is bad; the crew holds on to the one before
   * then. The workers take up the first corner once its first row is swept and what `beforeOthers` does is done: on two
   * cores they would slow down whatever a person waits for first.
   */
  async open(
    designText: string,
    settings: SweepSettings,
    beforeOthers: () => Promise<void> = () => Promise.resolve(),
  ): Promise<Built> {
    this.builder ??= new Member(this.makeWorker());
    const { builder } = this;
    const { built } = await builder.ask({ kind: 'open', designText, settings });
    // Of the first corner the first row comes sooner from the builder: the others have yet to load.
    const [travelIndexes] = bandsCoarseToFine(built.travelMm.length);
    const firstBand =
      this.held === undefined
        ? builder.ask({ kind: 'band', travelIndexes }).then(({ rows }) => rows)
        : undefined;
    const others = firstBand?.then(beforeOthers, () => {});
    this.hold(built, (member) => handOn(builder, member), firstBand, others);
    return built;
  }

  /** Gives the crew a corner that this thread has built. */
  take(setup: Setup): void {
    const handed = this.toHand(setup);
    this.hold(setup, (member) => member.ask({ kind: 'take', setup: handed }));
  }

  /** The worker that built the corner: measures poses beside what the others do. Throws an Error before `open`. */
  get prober(): Member {
    if (this.builder === undefined) throw new Error('a crew was asked for poses before it built a corner');
    return this.builder;
  }

  /** Every pair at every step. */
  async sweep(options: SweepOptions = {}): Promise<SweepResult> {
    const { onProgress, onPartial } = options;
    const { built, firstBand } = this.corner;
    const result = pendingResult(built);
    const order = bandsCoarseToFine(result.travelMm.length, this.members.length);
    let next = firstBand === undefined ? 0 : 1;
    let done = 0;
    const place = (travelIndexes: readonly number[], rows: readonly Row[]) => {
      rows.forEach((row, k) => {
        placeRow(result, travelIndexes[k], row);
      });
      done += rows.length;
      onProgress?.(done, result.travelMm.length);
      onPartial?.(result);
    };
    await this.deal(
      options.signal,
      IN_HAND,
      async (member, isOff, turn) => {
        // The last bands go one by one to whoever is free.
        const kept = turn * this.members.length;
        while (next < order.length - kept && !isOff()) {
          const travelIndexes = order[next++];
          const { rows } = await member.ask({ kind: 'band', travelIndexes });
          if (isOff()) return;
          place(travelIndexes, rows);
        }
      },
      async (isOff) => {
        const rows = await firstBand;
        if (rows !== undefined && !isOff()) place(order[0], rows);
      },
    );
    return result;
  }

  /** The limits of the corner's joints and dampers, at the steps of its sweep and between them. */
  async limits(): Promise<readonly MeasuredLimit[]> {
    const { corner } = this;
    await corner.ready[0];
    const { limits } = await this.members[0].ask({ kind: 'limits' });
    if (this.held !== corner) throw superseded();
    return limits;
  }

  /** What lies between the steps of a whole sweep of the corner. */
  async prove(result: SweepResult, options: ProofOptions = {}): Promise<Proof> {
    const { toleranceMm, onProgress, onCells } = options;
    const { travelMm, steer, poseState } = result;
    const poses = { travelMm, steer, poseState };
    const order = provingOrder(this.corner.built, result);
    const pairs: ProvedPair[] = [];
    let lockedOut: readonly LockedOut[] = [];
    let next = 0;
    let done = 0;
    /** Cells of the pairs that are proved, and by pair of those in hand. */
    let cells = 0;
    const inHand = new Map<number, number>();
    await this.deal(options.signal, 1, async (member, isOff) => {
      ({ lockedOut } = await member.ask({ kind: 'poses', poses, toleranceMm }));
      while (next < order.length && !isOff()) {
        const pair = order[next++];
        const { state, clearanceMm } = stepsOfPair(result, pair);
        // Copies: a part of an array travels with the whole of its memory.
        const steps = { state: state.slice(), clearanceMm: clearanceMm.slice() };
        const { proved } = await member.ask({ kind: 'prove', pair, steps }, [], (soFar) => {
          if (isOff()) return;
          inHand.set(pair, soFar);
          onCells?.([...inHand.values()].reduce((sum, count) => sum + count, cells));
        });
        if (isOff()) return;
        inHand.delete(pair);
        cells += proved.cells;
        pairs[pair] = proved;
        done += 1;
        onProgress?.(done, order.length);
      }
    });
    return { pairs, lockedOut };
  }

  /**
   * A clearance that a pair keeps on the way from each place to the next, mm; see `BetweenProver.lowerMm`. `leastMm`: of
   * each two places the lesser clearance.
   */
  async between(
    pair: number,
    places: readonly Place[],
    leastMm: readonly number[],
  ): Promise<readonly number[]> {
    return (await this.prober.ask({ kind: 'between', pair, places, leastMm })).lowerMm;
  }

  /**
   * Where the parts of a pair meet at a pose; undefined where they do not. The builder finds it, as it has the modeller; in
   * a crew without one the members take turns.
   */
  async contact(pair: number, travelMm: number, steer: number): Promise<PairContact | undefined> {
    const m = this.contacts++ % this.members.length;
    if (this.builder === undefined) await this.corner.ready[m];
    const member = this.builder ?? this.members[m];
    return (await member.ask({ kind: 'contact', pair, travelMm, steer })).contact;
  }

  end(): void {
    for (const member of this.members) member.end();
    this.builder?.end();
  }

  private get corner(): Held {
    if (this.held === undefined) throw new Error('a crew was asked to work before it held a corner');
    return this.held;
  }

  private hold(
    built: Built,
    give: Held['give'],
    firstBand?: Held['firstBand'],
    beforeOthers?: Promise<unknown>,
  ): void {
    const held: Held = { built, give, ready: [], firstBand, onSuperseded: [] };
    const before = this.held;
    this.held = held;
    for (const supersede of before?.onSuperseded ?? []) supersede();
    this.members.forEach((_, m) => {
      this.makeReady(held, m, async () => {
        await beforeOthers;
        this.requireHeld(held);
        await this.freed(m);
        this.requireHeld(held);
        await give(this.members[m]);
      });
    });
    firstBand?.catch(() => {});
  }

  /** Throws where the crew holds another corner by now: its workers are that one's. */
  private requireHeld(held: Held): void {
    if (this.held !== held) throw superseded();
  }

  private makeReady({ ready }: Held, m: number, make: () => Promise<unknown>): void {
    ready[m] = make();
    // Whoever works next is told of a member that could not be made ready; until then nobody listens.
    ready[m].catch(() => {});
  }

  /** Frees a member of work that was cancelled, and replaces it if that takes long; whether it was replaced. */
  private async freed(m: number): Promise<boolean> {
    const member = this.members[m];
    // One that never answered is still loading, and has nothing to be freed of.
    if (!member.alive || !member.hasAnswered || (await member.answersWithin(GRACE_MS)) || !member.alive)
      return false;
    member.end();
    this.members[m] = new Member(this.makeWorker());
    return true;
  }

  /** Frees all members of what they do; whoever works next waits for that. */
  private freeAll(held: Held): void {
    held.ready.forEach((before, m) => {
      this.makeReady(held, m, async () => {
        await before;
        this.requireHeld(held);
        const isReplaced = await this.freed(m);
        this.requireHeld(held);
        if (isReplaced) await held.give(this.members[m]);
      });
    });
  }

  /**
   * Runs `work` on every member, `times` calls at once, and `beside` on this thread. Resolves when all have ended; rejects
   * when one fails, when the signal aborts, or when another corner is opened.
   */
  private async deal(
    signal: AbortSignal | undefined,
    times: number,
    work: (member: Member, isOff: () => boolean, turn: number) => Promise<void>,
    beside?: (isOff: () => boolean) => Promise<void>,
  ): Promise<void> {
    signal?.throwIfAborted();
    const { corner } = this;
    let off = false;
    const isOff = () => off || signal?.aborted === true || this.held !== corner;
    let onAbort = () => {};
    const calledOff = new Promise<never>((_, reject) => {
      onAbort = () => reject(signal?.reason);
      signal?.addEventListener('abort', onAbort, { once: true });
      corner.onSuperseded.push(() => reject(superseded()));
    });
    const all = corner.ready.flatMap((ready, m) =>
      Array.from({ length: times }, (_, turn) => ready.then(() => work(this.members[m], isOff, turn))),
    );
    let isDone = false;
    try {
      await Promise.race([Promise.all([...all, beside?.(isOff)]), calledOff]);
      if (this.held !== corner) throw superseded();
      isDone = true;
    } finally {
      off = true;
      if (!isDone && this.held === corner && this.alive) this.freeAll(corner);
      // One signal may see many sweeps.
      signal?.removeEventListener('abort', onAbort);
    }
  }
}

/** Hands the corner that one worker holds to another, past this thread. */
async function handOn(from: Member, to: Member): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  const received = to.ask({ kind: 'receive', port: port2 }, [port2]);
  const shared = from.ask({ kind: 'share', port: port1 }, [port1]);
  // What does not come would be awaited for ever, and by whatever is asked after it.
  shared.catch(() => to.end());
  await Promise.all([shared, received]);
}
