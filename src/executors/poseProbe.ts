import type { Row } from '../sweep/row.ts';
import type { PoolWorker } from './poolWorker.ts';

/** Measures single poses in a worker that holds a corner, for scrubbing. The newest request wins. */
export class PoseProbe {
  private readonly worker: PoolWorker;
  private readonly onRow: (travelMm: number, steer: number, row: Row) => void;
  private readonly onFailure: (why: string) => void;
  private busy = false;
  private ended = false;
  private newest: { travelMm: number; steer: number } | undefined;

  /**
   * `onRow` gets every pair at a requested pose, as a row of one step. `onFailure` gets the worker's error; the probe
   * then measures no more.
   */
  constructor(
    worker: PoolWorker,
    onRow: (travelMm: number, steer: number, row: Row) => void,
    onFailure: (why: string) => void,
  ) {
    this.worker = worker;
    this.onRow = onRow;
    this.onFailure = onFailure;
  }

  /** Requests a pose. While another pose is being measured, only the newest request is kept. */
  request(travelMm: number, steer: number): void {
    this.newest = { travelMm, steer };
    if (!this.busy && !this.ended) void this.measureNewest();
  }

  /** Ends the probe: no more results are reported. The worker keeps running. */
  end(): void {
    this.ended = true;
  }

  private async measureNewest(): Promise<void> {
    this.busy = true;
    try {
      while (this.newest !== undefined && !this.ended) {
        const { travelMm, steer } = this.newest;
        this.newest = undefined;
        const { row } = await this.worker.request({ kind: 'pose', travelMm, steer });
        if (!this.ended) this.onRow(travelMm, steer, row);
      }
      this.busy = false;
    } catch (error) {
      // Stays busy, so that a failed worker gets no more requests.
      if (!this.ended) this.onFailure((error as Error).message);
    }
  }
}
