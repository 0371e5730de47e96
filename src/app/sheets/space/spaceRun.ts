import type { Remote } from 'comlink';
import { create } from 'zustand';
import type { LengthUnit } from '../../../report/figures.ts';
import type { SpaceRequest } from '../../../studies/sweptSpace/sweptSpace.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useSpace } from '../../state/spaceStore.ts';
import { callOnce } from '../../workers/remote.ts';
import type { FoundSpace, SpaceApi, SpaceFile } from '../../workers/space/spaceWorker.ts';
import { StudyRun, type StudyState } from '../../workers/studyRun.ts';

/** The computed space. Kept while sheets open and close, never part of a file. */
export const useSpaceRun = create<{ state: StudyState<FoundSpace> }>(() => ({ state: { kind: 'none' } }));

const run = new StudyRun<SpaceApi, FoundSpace>((state) => {
  useSpaceRun.setState({ state });
  if (state.kind === 'done')
    useSpace.setState({ space: { designHash: state.designHash, mesh: state.found.mesh } });
});

const startWorker = () =>
  new Worker(new URL('../../workers/space/spaceWorker.ts', import.meta.url), { type: 'module' });

/** Computes the space in its own worker. It supersedes a running computation. */
export function findSpace({ design }: OpenCorner, request: SpaceRequest, unit: LengthUnit): void {
  useSpace.setState({ space: undefined });
  run.start({ designHash: design.hash, label: 'the space' }, startWorker(), (api, onProgress) =>
    api.find(design.corner, request, unit, onProgress),
  );
}

/** Ends a running computation. */
export const cancelSpace = (): void => run.cancel();

/** The files of a computed space in a format, by name. */
export const spaceFiles = (
  { design }: OpenCorner,
  { mesh, request }: FoundSpace,
  format: SpaceFile,
): Promise<Record<string, Uint8Array>> =>
  callOnce(startWorker(), (api: Remote<SpaceApi>) => api.write(design.corner, { mesh, request }, format))
    .result;
