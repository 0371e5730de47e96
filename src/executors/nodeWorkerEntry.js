// For tests and benches, which run from TypeScript sources: Node starts a thread from JavaScript, so the loader is
// registered first.
import { workerData } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

register();
await import(workerData);
