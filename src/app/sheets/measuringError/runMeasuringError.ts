import { proxy } from 'comlink';
import { yieldToOthers } from '../../../executors/yieldToOthers.ts';
import type { SolidIds } from '../../../studies/sensitivity/sensitivity.ts';
import type { OpenCorner } from '../../state/engine.ts';
import type {
  MeasuringErrorApi,
  MeasuringErrorByUnit,
} from '../../workers/measuringError/measuringErrorWorker.ts';
import { RemoteWorker, type WorkerCall } from '../../workers/remote.ts';
import { type OnStudyProgress, StudyRun } from '../../workers/studyRun.ts';
import { foundForPair, keepPair, useMeasuringError } from './measuringErrorStore.ts';

const run = new StudyRun<MeasuringErrorApi, MeasuringErrorByUnit>((state) => {
  useMeasuringError.setState({ state });
  const among = state.kind === 'done' ? state.found.mm.among : undefined;
  if (state.kind === 'done' && among?.length === 1) keepPair(state.designHash, among[0], state.found);
  endUnusedWorker();
});
const others = new StudyRun<MeasuringErrorApi, void>((state) =>
  useMeasuringError.setState({ others: state }),
);

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

/**
 * Starts the worker of the studies, and keeps it until the returned function is called and no study runs. That ends the study of
 * the other pairs.
 */
export function keepWorker(): () => void {
  openSheets++;
  useMeasuringError.setState({ others: { kind: 'none' } });
  keptWorker();
  return () => {
    openSheets--;
    endOthers();
    endUnusedWorker();
  };
}

type Studied = Pick<OpenCorner, 'design' | 'settings'>;

/** The study of some pairs, or of all, in the kept worker. */
function callFor(
  { design, settings }: Studied,
  among: readonly SolidIds[] | undefined,
  onProgress: OnStudyProgress,
): WorkerCall<MeasuringErrorByUnit> {
  const kept = keptWorker();
  return {
    result: kept.call((api) => api.study(design, settings, among, proxy(onProgress))),
    cancel: () => void kept.call((api) => api.cancel()).catch(() => {}),
  };
}

/** Studies some pairs, by the ids of their solids, or all pairs. It supersedes a running study. */
export function startMeasuringError(
  corner: Studied,
  among: readonly SolidIds[] | undefined,
  label: string,
): void {
  endOthers();
  run.startCall({ designHash: corner.design.hash, label }, (onProgress) =>
    callFor(corner, among, onProgress),
  );
}

/** Studies each of some pairs that is not studied yet, in this order, until a study is asked for or the sheet closes. */
export function studyOthers(corner: Studied, pairs: readonly SolidIds[]): void {
  const designHash = corner.design.hash;
  others.startCall({ designHash, label: 'The other pairs' }, (onProgress) => {
    let call: WorkerCall<MeasuringErrorByUnit> | undefined;
    let isCancelled = false;
    const isFound = (between: SolidIds) =>
      foundForPair(useMeasuringError.getState(), designHash, between) !== undefined;
    const studyEach = async () => {
      for (const between of pairs) {
        await yieldToOthers();
        if (isCancelled) return;
        onProgress(pairs.filter(isFound).length, pairs.length, 'pairs studied');
        if (isFound(between)) continue;
        call = callFor(corner, [between], () => {});
        keepPair(designHash, between, await call.result);
      }
    };
    return {
      result: studyEach(),
      cancel() {
        isCancelled = true;
        call?.cancel();
      },
    };
  });
}

/** Ends the study of the other pairs, which may start again. */
export function endOthers(): void {
  if (useMeasuringError.getState().others.kind !== 'running') return;
  others.cancel();
  useMeasuringError.setState({ others: { kind: 'none' } });
}

/** Ends a running study, and that of the other pairs until the sheet is opened again. */
export function cancelMeasuringError(): void {
  run.cancel();
  others.cancel();
}
