import { expose } from 'comlink';
import './firstPool.ts';
import type { study, take } from './fitWorker.ts';

// Loads while the workers start, not before.
const loaded = import('./fitWorker.ts');
// Each call reports a failure to load.
loaded.catch(() => {});

const api = {
  take: async (...args: Parameters<typeof take>) => (await loaded).take(...args),
  study: async (...args: Parameters<typeof study>) => (await loaded).study(...args),
};
export type FitApi = typeof api;
expose(api);
