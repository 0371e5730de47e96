import type { OpenCorner } from '../../state/engine.ts';
import type { MeasuringErrorApi } from '../../workers/measuringError/measuringErrorWorker.ts';
import { StudyRun } from '../../workers/studyRun.ts';
import { type Found, useMeasuringError } from './measuringErrorStore.ts';

const run = new StudyRun<MeasuringErrorApi, Found>((state) => useMeasuringError.setState({ state }));

/** Studies one pair, by the ids of its solids, or all pairs, in its own worker. It supersedes a running study. */
export function startMeasuringError(
  { design, settings }: Pick<OpenCorner, 'design' | 'settings'>,
  between: readonly [string, string] | undefined,
  label: string,
): void {
  const worker = new Worker(
    new URL('../../workers/measuringError/measuringErrorWorker.ts', import.meta.url),
    { type: 'module' },
  );
  run.start({ designHash: design.hash, label }, worker, async (api, onProgress) => ({
    study: await api.study(design, settings, between, onProgress),
    isWhole: between === undefined,
  }));
}

/** Ends a running study. */
export const cancelMeasuringError = (): void => run.cancel();
