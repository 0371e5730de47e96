// Node starts a thread from JavaScript; the engine is TypeScript, so the loader is registered first.
import { workerData } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

register();
await import(workerData);
