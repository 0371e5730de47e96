import type { SolidIds } from '../../../studies/sensitivity/sensitivity.ts';
import type { OpenCorner } from '../../state/engine.ts';
import type {
  MeasuringErrorApi,
  MeasuringErrorByUnit,
} from '../../workers/measuringError/measuringErrorWorker.ts';
import { StudyRun } from '../../workers/studyRun.ts';
import { useMeasuringError } from './measuringErrorStore.ts';

const run = new StudyRun<MeasuringErrorApi, MeasuringErrorByUnit>((state) =>
  useMeasuringError.setState({ state }),
);

/** Studies some pairs, by the ids of their solids, or all pairs, in its own worker. It supersedes a running study. */
export function startMeasuringError(
  { design, settings }: Pick<OpenCorner, 'design' | 'settings'>,
  among: readonly SolidIds[] | undefined,
  label: string,
): void {
  const worker = new Worker(
    new URL('../../workers/measuringError/measuringErrorWorker.ts', import.meta.url),
    { type: 'module' },
  );
  run.start({ designHash: design.hash, label }, worker, (api, onProgress) =>
    api.study(design, settings, among, onProgress),
  );
}

/** Ends a running study. */
export const cancelMeasuringError = (): void => run.cancel();
