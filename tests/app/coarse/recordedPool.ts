import type { CornerFiles } from '../../../src/design/assets.ts';
import type { ProofOptions, SweepOptions } from '../../../src/executors/options.ts';
import type { WorkerHandle } from '../../../src/executors/poolWorker.ts';
import { WorkerPool } from '../../../src/executors/workerPool.ts';
import type { Proof } from '../../../src/proof/prove.ts';
import type { MeasuredLimit } from '../../../src/sweep/limit.ts';
import type { SweepResult, SweepSettings } from '../../../src/sweep/result.ts';
import type { Built } from '../../../src/sweep/setUp.ts';
import { RecordedBuilder } from './recordedBuilder.ts';
import { addressFor, record, recordAt } from './records.ts';

/**
 * A pool that takes sweep, limits and proof of a corner from the server, if a page of this test run has made them for the
 * same corner under any name, and the built corner, if one has built the same file. Workers start for what is not recorded.
 */
export class RecordedPool extends WorkerPool {
  private opened: Built | undefined;
  private startWorkers = () => {};

  override async open(files: CornerFiles, settings: SweepSettings): Promise<Built> {
    let start = () => {};
    const needed = new Promise<void>((resolve) => {
      start = resolve;
    });
    this.opened = await super.open(files, settings, () => needed);
    this.startWorkers = start;
    return this.opened;
  }

  protected override makeBuilder(worker: WorkerHandle): RecordedBuilder {
    return new RecordedBuilder(worker);
  }

  /** No worker sweeps what is recorded. */
  protected override sweepFirstBand(): undefined {}

  override async sweep(options: SweepOptions = {}): Promise<SweepResult> {
    const made = await this.recorded('sweep', options.signal, () => super.sweep(options));
    const result = { ...made, designHash: this.opened?.design.hash ?? made.designHash };
    options.onProgress?.(result.travelMm.length, result.travelMm.length);
    options.onPartial?.(result);
    return result;
  }

  override limits(): Promise<readonly MeasuredLimit[]> {
    return this.recorded('limits', undefined, () => super.limits());
  }

  override prove(result: SweepResult, options: ProofOptions = {}): Promise<Proof> {
    return this.recorded('proof', options.signal, () => super.prove(result, options));
  }

  private async recorded<T>(
    what: string,
    signal: AbortSignal | undefined,
    make: () => Promise<T>,
  ): Promise<T> {
    const { opened, startWorkers } = this;
    if (opened === undefined) return make();
    const address = `${await cornerAddress(opened)}/${what}`;
    const recorded = await recordAt<T>(address);
    signal?.throwIfAborted();
    // Otherwise the results of the next corner would be recorded for this one.
    if (this.opened !== opened) throw new Error('another corner has been opened');
    if (recorded !== undefined) return recorded;
    startWorkers();
    const made = await make();
    await record(address, made);
    return made;
  }
}

/** Address of a corner and its settings, but for the corner's name: no result depends on it. */
const cornerAddress = ({ design: { corner }, settings }: Built): Promise<string> =>
  addressFor(JSON.stringify([{ ...corner, name: undefined }, settings]));
