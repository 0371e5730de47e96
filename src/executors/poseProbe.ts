import type { Row } from '../sweep/row.ts';
import type { Member } from './member.ts';

/** Measures single poses in a worker that holds a corner, for scrubbing. The newest question wins. */
export class PoseProbe {
  private readonly member: Member;
  private readonly onRow: (travelMm: number, steer: number, row: Row) => void;
  private readonly onFailure: (why: string) => void;
  private busy = false;
  private ended = false;
  private waiting: { travelMm: number; steer: number } | undefined;

  /**
   * `onRow` gets every pair at a pose that was asked for (a row of one step); `onFailure` the words of a worker that can
   * do no more.
   */
  constructor(
    member: Member,
    onRow: (travelMm: number, steer: number, row: Row) => void,
    onFailure: (why: string) => void,
  ) {
    this.member = member;
    this.onRow = onRow;
    this.onFailure = onFailure;
  }

  /** Asks for a pose; while one is being measured, only the last asked for is kept. */
  ask(travelMm: number, steer: number): void {
    this.waiting = { travelMm, steer };
    if (!this.busy && !this.ended) void this.askNext();
  }

  /** No answer comes any more; the worker goes on. */
  end(): void {
    this.ended = true;
  }

  private async askNext(): Promise<void> {
    this.busy = true;
    try {
      while (this.waiting !== undefined && !this.ended) {
        const { travelMm, steer } = this.waiting;
        this.waiting = undefined;
        const { row } = await this.member.ask({ kind: 'pose', travelMm, steer });
        if (!this.ended) this.onRow(travelMm, steer, row);
      }
      this.busy = false;
    } catch (error) {
      // It stays busy: a worker that has failed once is not asked again.
      if (!this.ended) this.onFailure((error as Error).message);
    }
  }
}
