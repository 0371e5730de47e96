import type { CornerFiles } from '../../../src/design/assets.ts';
import type { ProofOptions, SweepOptions } from '../../../src/executors/options.ts';
import { WorkerPool } from '../../../src/executors/workerPool.ts';
import type { Proof } from '../../../src/proof/prove.ts';
import type { MeasuredLimit } from '../../../src/sweep/limit.ts';
import type { SweepResult, SweepSettings } from '../../../src/sweep/result.ts';
import type { Built } from '../../../src/sweep/setUp.ts';

/**
 * A pool that takes sweep, limits and proof of a corner from the server, if a page of this test run has made them for the
 * same corner under any name. The corner is built all the same. Workers start for what is not recorded.
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
    const address = `/recorded/${await hashOf(opened)}/${what}`;
    const text = await (await fetch(address)).text();
    signal?.throwIfAborted();
    // Otherwise the results of the next corner would be recorded for this one.
    if (this.opened !== opened) throw new Error('another corner has been opened');
    if (text !== '') return JSON.parse(text, decode);
    startWorkers();
    const made = await make();
    await fetch(address, { method: 'PUT', body: JSON.stringify(made, encode) });
    return made;
  }
}

/** Hash of a corner and its settings, but for the corner's name: no result depends on it. */
async function hashOf({ design: { corner }, settings }: Built): Promise<string> {
  const text = JSON.stringify([{ ...corner, name: undefined }, settings]);
  const hash = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return [...new Uint8Array(hash)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Key that marks a value JSON cannot represent: an infinite number or a typed array. No field of a result has this name. */
const ENCODED = 'encoded';
const ARRAYS = { Uint8Array, Float64Array };
type Encoded = { [ENCODED]: 'NaN' | 'Infinity' | '-Infinity' | keyof typeof ARRAYS; bytes?: string };

function encode(_: string, value: unknown): unknown {
  if (value instanceof Uint8Array || value instanceof Float64Array) {
    const bytes = new Uint8Array(value.buffer, value.byteOffset, value.byteLength);
    return { [ENCODED]: value.constructor.name, bytes: btoa(Array.from(bytes, toCharacter).join('')) };
  }
  return typeof value === 'number' && !Number.isFinite(value) ? { [ENCODED]: String(value) } : value;
}

const toCharacter = (byte: number): string => String.fromCharCode(byte);

function decode(_: string, value: Encoded | null): unknown {
  const encoded = typeof value === 'object' && value !== null ? value[ENCODED] : undefined;
  if (encoded === undefined) return value;
  if (encoded !== 'Uint8Array' && encoded !== 'Float64Array') return Number(encoded);
  const { buffer } = Uint8Array.from(atob(value?.bytes ?? ''), (character) => character.charCodeAt(0));
  return new ARRAYS[encoded](buffer);
}
