import { Member, type WorkerHandle } from '../../executors/member.ts';
import type { FastenerBody } from '../../solids/fastenerBodies.ts';
import type { Setup } from '../../sweep/setUp.ts';
import type { ClockingReply, ClockingRequest } from './clockingDesk.ts';
import type { FirstLook } from './firstLook.ts';
import type { Profile } from './profile.ts';

export type ClockingHandle = WorkerHandle<ClockingRequest, ClockingReply>;

export interface CrewWork {
  setup: Setup;
  bodies: readonly FastenerBody[];
  leastMm: number | undefined;
  /** How many pairs the study has, and those of them that a first look is taken at: the others take no time. */
  pairs: number;
  looked: readonly number[];
  signal?: AbortSignal;
  /** A first look at each of those comes before any pair is measured: by it they know which take long. */
  onLook(pair: number, look: FirstLook): void;
  onProfile(pair: number, profile: Profile): void;
}

/**
 * Workers that measure the pairs of a clocking study between them, those first that take long. A pair comes out the same
 * whoever measures it, so that the study is the same as without them. They keep the corner from one study to the next.
 *
 * Work that is cancelled rejects with the signal's reason, and answers still under way are dropped; where a worker dies it
 * rejects with an Error, and the crew is not `alive` any more.
 */
export class ClockingCrew {
  private readonly members: Member<ClockingRequest, ClockingReply>[];
  private held: Setup | undefined;

  constructor(makeWorker: () => ClockingHandle, workers: number) {
    this.members = Array.from(
      { length: Math.max(1, workers) },
      () => new Member(makeWorker(), 'a worker of the clocking study'),
    );
  }

  get alive(): boolean {
    return this.members.every(({ alive }) => alive);
  }

  end(): void {
    for (const member of this.members) member.end();
  }

  /** Measures every pair. */
  async measure({
    setup,
    bodies,
    leastMm,
    pairs,
    looked,
    signal,
    onLook,
    onProfile,
  }: CrewWork): Promise<void> {
    signal?.throwIfAborted();
    const isNew = this.held !== setup;
    this.held = setup;
    let off = false;
    let onAbort = () => {};
    const calledOff = new Promise<never>((_, reject) => {
      onAbort = () => reject(signal?.reason);
      signal?.addEventListener('abort', onAbort, { once: true });
    });
    const isOff = () => off || signal?.aborted === true;
    const all = Array.from({ length: pairs }, (_, pair) => pair);
    /** Of each pair, how long the look at it took. */
    const tookMs = new Float64Array(pairs);
    const ready = async (member: Member<ClockingRequest, ClockingReply>) => {
      if (isNew) await member.ask({ kind: 'take', setup, bodies });
      // What is wanted by now is for another to say where this was called off meanwhile.
      if (!isOff()) await member.ask({ kind: 'want', leastMm });
    };
    const deal = async (
      order: number[],
      work: (member: Member<ClockingRequest, ClockingReply>, pair: number) => Promise<() => void>,
    ) => {
      await Promise.all(
        this.members.map(async (member) => {
          for (let pair = order.shift(); pair !== undefined && !isOff(); pair = order.shift()) {
            const take = await work(member, pair);
            if (!isOff()) take();
          }
        }),
      );
    };
    const work = async () => {
      await Promise.all(this.members.map(ready));
      await deal([...looked], async (member, pair) => {
        const { look, tookMs: ms } = await member.ask({ kind: 'look', pair });
        tookMs[pair] = ms;
        return () => onLook(pair, look);
      });
      await deal(
        all.toSorted((one, other) => tookMs[other] - tookMs[one]),
        async (member, pair) => {
          const { profile } = await member.ask({ kind: 'profile', pair });
          return () => onProfile(pair, profile);
        },
      );
    };
    try {
      await Promise.race([work(), calledOff]);
    } catch (error) {
      // A member that could not take the corner holds another one.
      if (isNew && !isOff()) this.held = undefined;
      throw error;
    } finally {
      off = true;
      signal?.removeEventListener('abort', onAbort);
    }
  }
}
