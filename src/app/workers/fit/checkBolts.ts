import type { Remote } from 'comlink';
import type { Corner } from '../../../design/schema.ts';
import type { BoltsLines } from '../../../report/bolts/boltsLines.ts';
import { callOnce, type WorkerCall } from '../remote.ts';
import type { BoltsApi } from './boltsWorker.ts';

/** Checks the bolts of a corner in a worker of its own; see `boltsLines`. */
export function checkBolts(corner: Corner, unit: 'mm' | 'in'): WorkerCall<BoltsLines> {
  const worker = new Worker(new URL('./boltsWorker.ts', import.meta.url), { type: 'module' });
  return callOnce(worker, (api: Remote<BoltsApi>) => api.checkBolts(corner, unit));
}
