import type { OpenCorner } from '../../state/engine.ts';
import { StudyRun } from '../../workers/studyRun.ts';
import type { Offered } from '../../workers/vary/offered.ts';
import type { TypedRange } from '../../workers/vary/typedAxis.ts';
import type { VaryApi } from '../../workers/vary/varyWorker.ts';
import { useVary, type VariedByUnit } from './varyStore.ts';

const run = new StudyRun<VaryApi, VariedByUnit>((state) => useVary.setState({ state }));

/** Starts a study of the typed values in its own worker. It supersedes a running study. */
export function startStudy(
  { design, settings }: Pick<OpenCorner, 'design' | 'settings'>,
  { name, label }: Offered,
  typed: TypedRange,
): void {
  const worker = new Worker(new URL('../../workers/vary/varyWorker.ts', import.meta.url), { type: 'module' });
  run.start({ designHash: design.hash, label }, worker, (api, onProgress) =>
    api.vary({ design, settings, name, typed }, onProgress),
  );
}

/** Ends a running study. The typed values stay. */
export const cancelStudy = (): void => run.cancel();
