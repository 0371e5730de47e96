import { pendingResult, placeRow } from '../sweep/assemble.ts';
import type { PairContact } from '../sweep/pairContact.ts';
import type { LockedOut, Proof, ProvedPair } from '../sweep/prove.ts';
import type { SweepResult, SweepSettings } from '../sweep/result.ts';
import type { Built, Setup } from '../sweep/setUp.ts';
import { coarseToFine } from '../sweep/steps.ts';
import { Member, type WorkerHandle } from './member.ts';
import type { ProofOptions, SweepOptions } from './options.ts';
import { provingOrder } from './provingOrder.ts';

/** Requests that a worker has in hand at once, so that it need not wait for a busy thread between two. */
const IN_HAND = 2;

/**
 * Workers that hold one corner, and sweep and prove it between them. They start to load when the crew is made. Rows and
 * pairs are dealt out as workers come free; as each comes out the same whoever computes it, so does the whole.
 *
 * A sweep or proof that is cancelled rejects with the signal's reason, and answers still under way are dropped; one whose
 * worker dies rejects with an Error, and the crew is not `alive` any more. No partial result is ever returned.
 *
 * Tried first: workers that each build the corner from its file. On two cores both then spend as long on building as on
 * a third of their sweep, and the modeller is loaded twice; a copy of what one has built takes 40 ms.
 */
export class Crew {
  private readonly makeWorker: () => WorkerHandle;
  private readonly members: Member[];
  private held: { built: Built; ready: readonly Promise<unknown>[] } | undefined;

  constructor(makeWorker: () => WorkerHandle, workers: number) {
    this.makeWorker = makeWorker;
    this.members = Array.from({ length: Math.max(1, workers) }, () => new Member(makeWorker()));
  }

  get alive(): boolean {
    return this.members.every(({ alive }) => alive);
  }

  /** Builds the corner of a file, in the first worker. Rejects with DesignProblems when the corner is bad. */
  async open(designText: string, settings: SweepSettings): Promise<Built> {
    const [first, ...others] = this.members;
    const { built } = await first.ask({ kind: 'open', designText, settings });
    this.hold(built, [Promise.resolve(), ...others.map((member) => this.shareWith(member))]);
    return built;
  }

  /** Gives the crew a corner that this thread has built. */
  take(setup: Setup): void {
    this.hold(
      setup,
      this.members.map((member) => member.ask({ kind: 'take', setup })),
    );
  }

  /** One more worker that holds the corner and stays free of the crew's work. */
  async spare(): Promise<Member> {
    const member = new Member(this.makeWorker());
    await this.shareWith(member);
    return member;
  }

  /** Every pair at every step. */
  async sweep(options: SweepOptions = {}): Promise<SweepResult> {
    const { onProgress, onPartial } = options;
    const result = pendingResult(this.corner.built);
    const order = coarseToFine(result.travelMm.length);
    let next = 0;
    let done = 0;
    await this.deal(options.signal, IN_HAND, async (member, isOff) => {
      while (next < order.length && !isOff()) {
        const travelIndex = order[next++];
        const { row } = await member.ask({ kind: 'row', travelIndex });
        if (isOff()) return;
        placeRow(result, travelIndex, row);
        done += 1;
        onProgress?.(done, order.length);
        onPartial?.(result);
      }
    });
    return result;
  }

  /** What lies between the steps of a whole sweep of the corner. */
  async prove(result: SweepResult, options: ProofOptions = {}): Promise<Proof> {
    const { toleranceMm, onProgress } = options;
    const { travelMm, steer, poseState, state, clearanceMm } = result;
    const steps = { travelMm, steer, poseState, state, clearanceMm };
    const order = provingOrder(this.corner.built, result);
    const pairs: ProvedPair[] = [];
    let lockedOut: readonly LockedOut[] = [];
    let next = 0;
    let done = 0;
    await this.deal(options.signal, 1, async (member, isOff) => {
      ({ lockedOut } = await member.ask({ kind: 'steps', steps, toleranceMm }));
      while (next < order.length && !isOff()) {
        const { proved } = await member.ask({ kind: 'prove', pair: order[next++] });
        if (isOff()) return;
        pairs[proved.pair] = proved;
        done += 1;
        onProgress?.(done, order.length);
      }
    });
    return { pairs, lockedOut };
  }

  /** Where the parts of a pair meet at a pose; undefined where they do not. */
  async contact(pair: number, travelMm: number, steer: number): Promise<PairContact | undefined> {
    const [first] = this.members;
    return (await first.ask({ kind: 'contact', pair, travelMm, steer })).contact;
  }

  end(): void {
    for (const member of this.members) member.end();
  }

  private get corner(): NonNullable<typeof this.held> {
    if (this.held === undefined) throw new Error('a crew was asked to work before it held a corner');
    return this.held;
  }

  private hold(built: Built, ready: readonly Promise<unknown>[]): void {
    this.held = { built, ready };
    // Whoever works next is told of a member that could not be made ready; until then nobody listens.
    for (const member of ready) member.catch(() => {});
  }

  private async shareWith(member: Member): Promise<void> {
    const { port1, port2 } = new MessageChannel();
    const [first] = this.members;
    await Promise.all([
      first.ask({ kind: 'share', port: port1 }, [port1]),
      member.ask({ kind: 'receive', port: port2 }, [port2]),
    ]);
  }

  /** Lets every member work, as many times at once as told, until all have done or one fails or it is called off. */
  private async deal(
    signal: AbortSignal | undefined,
    times: number,
    work: (member: Member, isOff: () => boolean) => Promise<void>,
  ): Promise<void> {
    signal?.throwIfAborted();
    const { ready } = this.corner;
    let off = false;
    const calledOff = new Promise<never>((_, reject) => {
      signal?.addEventListener('abort', () => reject(signal.reason), { once: true });
    });
    const all = this.members.flatMap((member, m) =>
      Array.from({ length: times }, () =>
        ready[m].then(() => work(member, () => off || signal?.aborted === true)),
      ),
    );
    try {
      await Promise.race([Promise.all(all), calledOff]);
    } finally {
      off = true;
    }
  }
}
