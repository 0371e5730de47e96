import { proxy } from 'comlink';
import type { SolidIds } from '../../../studies/sensitivity/sensitivity.ts';
import type { OpenCorner } from '../../state/engine.ts';
import type {
  MeasuringErrorApi,
  MeasuringErrorByUnit,
} from '../../workers/measuringError/measuringErrorWorker.ts';
import { RemoteWorker } from '../../workers/remote.ts';
import { StudyRun } from '../../workers/studyRun.ts';
import { useMeasuringError } from './measuringErrorStore.ts';

const run = new StudyRun<MeasuringErrorApi, MeasuringErrorByUnit>((state) => {
  useMeasuringError.setState({ state });
  endUnusedWorker();
});

let worker: RemoteWorker<MeasuringErrorApi> | undefined;
let openSheets = 0;

/** The worker of all studies while a sheet is open; started again if it has died. */
function keptWorker(): RemoteWorker<MeasuringErrorApi> {
  if (worker === undefined || worker.ended)
    worker = new RemoteWorker(
      new Worker(new URL('../../workers/measuringError/measuringErrorWorker.ts', import.meta.url), {
        type: 'module',
      }),
    );
  return worker;
}

function endUnusedWorker(): void {
  if (openSheets > 0 || useMeasuringError.getState().state.kind === 'running') return;
  worker?.end();
  worker = undefined;
}

/** Starts the worker of the studies, and keeps it until the returned function is called and no study runs. */
export function keepWorker(): () => void {
  openSheets++;
  keptWorker();
  return () => {
    openSheets--;
    endUnusedWorker();
  };
}

/** Studies some pairs, by the ids of their solids, or all pairs. It supersedes a running study. */
export function startMeasuringError(
  { design, settings }: Pick<OpenCorner, 'design' | 'settings'>,
  among: readonly SolidIds[] | undefined,
  label: string,
): void {
  run.startCall({ designHash: design.hash, label }, (onProgress) => {
    const kept = keptWorker();
    return {
      result: kept.call((api) => api.study(design, settings, among, proxy(onProgress))),
      cancel: () => void kept.call((api) => api.cancel()).catch(() => {}),
    };
  });
}

/** Ends a running study. */
export const cancelMeasuringError = (): void => run.cancel();
