import type { Design } from '../../design/design.ts';
import { yieldToOthers } from '../../executors/yieldToOthers.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { Changes } from './changes.ts';
import type { PosedPair } from './posedPair.ts';
import type { StudiedInput, StudiedValue } from './studiedInputs.ts';
import { type ValueRates, Variants } from './variants.ts';

/** Values to change, and the pairs to measure. */
export interface RatesWork<P extends PosedPair> {
  design: Design;
  settings: SweepSettings;
  inputs: readonly StudiedInput[];
  pairs: readonly P[];
  signal?: AbortSignal | undefined;
  /** Called after each value, with the number of values done. */
  onDone?: (done: number) => void;
}

/** Measures the rates of all pairs for each value, in the order of the values. Rejects with the signal's reason when cancelled. */
export type MeasureRates = <P extends PosedPair>(work: RatesWork<P>) => Promise<ValueRates<P>[]>;

/** In the calling thread. */
export const measureRatesHere: MeasureRates = async ({ design, settings, inputs, pairs, signal, onDone }) => {
  if (pairs.length === 0) return [];
  const variants = await Variants.of(new Changes(design, settings), pairs);
  const found = [];
  for (const input of inputs) {
    signal?.throwIfAborted();
    found.push(await variants.study(input));
    onDone?.(found.length);
    await yieldToOthers();
  }
  return found;
};

/** Each value with the reasons why the corner cannot be built beside it. */
export const studiedValues = <P extends PosedPair>(
  inputs: readonly StudiedInput[],
  rates: readonly ValueRates<P>[],
): StudiedValue[] => rates.map(({ problems }, k) => ({ ...inputs[k], problems }));
