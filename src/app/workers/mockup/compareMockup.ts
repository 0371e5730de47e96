import type { Remote } from 'comlink';
import type { MockupStudy } from '../../../studies/mockup/mockup.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { callOnce, type WorkerCall } from '../remote.ts';
import type { MockupApi } from './mockupWorker.ts';

/** Compares the gaps of a corner's mock-up with the computed ones, in a worker of its own. */
export function compareMockup(
  { design, settings }: Pick<OpenCorner, 'design' | 'settings'>,
  onProgress: (done: number, total: number) => void = () => {},
): WorkerCall<MockupStudy> {
  const worker = new Worker(new URL('./mockupWorker.ts', import.meta.url), { type: 'module' });
  return callOnce(worker, (api: Remote<MockupApi>, callback) =>
    api.compare(design, settings, callback(onProgress)),
  );
}

/**
 * The compared mock-up for a report; undefined if the corner has no measured gaps. Rejects with an Error whose message
 * says that it cannot be compared.
 */
export async function mockupForReport(corner: OpenCorner): Promise<MockupStudy | undefined> {
  if ((corner.design.corner.mockup ?? []).length === 0) return undefined;
  try {
    return await compareMockup(corner).result;
  } catch (error) {
    throw new Error(`the mock-up cannot be compared: ${(error as Error).message}`);
  }
}
