import type { Row } from '../sweep/row.ts';
import type { Member } from './member.ts';

/** Measures single poses of one corner in a worker of its own, for scrubbing. The newest question wins. */
export class PoseProbe {
  private readonly onRow: (travelMm: number, steer: number, row: Row) => void;
  private readonly onFailure: (why: string) => void;
  private member: Member | undefined;
  private busy = true;
  private ended = false;
  private waiting: { travelMm: number; steer: number } | undefined;

  /**
   * Asks the worker once it is there. `onRow` gets every pair at a pose that was asked for (a row of one step);
   * `onFailure` the words of a worker that can do no more.
   */
  constructor(
    member: Promise<Member>,
    onRow: (travelMm: number, steer: number, row: Row) => void,
    onFailure: (why: string) => void,
  ) {
    this.onRow = onRow;
    this.onFailure = onFailure;
    member.then(
      (ready) => {
        this.member = ready;
        if (this.ended) ready.end();
        else this.askNext();
      },
      (error) => this.fail(error),
    );
  }

  /** Asks for a pose; while one is being measured, only the last asked for is kept. */
  ask(travelMm: number, steer: number): void {
    this.waiting = { travelMm, steer };
    if (!this.busy) this.askNext();
  }

  end(): void {
    this.ended = true;
    this.member?.end();
  }

  private askNext(): void {
    const { waiting, member } = this;
    this.waiting = undefined;
    this.busy = waiting !== undefined && member !== undefined;
    if (waiting === undefined || member === undefined) return;
    const { travelMm, steer } = waiting;
    member.ask({ kind: 'pose', travelMm, steer }).then(
      ({ row }) => {
        if (this.ended) return;
        this.onRow(travelMm, steer, row);
        this.askNext();
      },
      (error) => this.fail(error),
    );
  }

  private fail(error: Error): void {
    if (!this.ended) this.onFailure(error.message);
  }
}
