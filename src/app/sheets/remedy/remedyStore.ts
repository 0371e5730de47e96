import { create } from 'zustand';
import type { OpenCorner } from '../../state/engine.ts';
import type { FoundRemedies, RemedyApi } from '../../workers/remedy/remedyWorker.ts';
import { StudyRun, type StudyState } from '../../workers/studyRun.ts';

/** The search for remedies and its result. Kept while sheets open and close, never part of a file. */
export const useRemedy = create<{ state: StudyState<FoundRemedies> }>(() => ({ state: { kind: 'none' } }));

const run = new StudyRun<RemedyApi, FoundRemedies>((state) => useRemedy.setState({ state }));

/** Starts a search in its own worker. It supersedes a running one. */
export function findRemedies(
  { design, settings }: Pick<OpenCorner, 'design' | 'settings'>,
  between: readonly [string, string],
  label: string,
): void {
  const worker = new Worker(new URL('../../workers/remedy/remedyWorker.ts', import.meta.url), {
    type: 'module',
  });
  run.start({ designHash: design.hash, label }, worker, (api, onProgress) =>
    api.find(design, settings, between, onProgress),
  );
}

/** Ends a running search. */
export const cancelRemedies = (): void => run.cancel();
