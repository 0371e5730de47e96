// Node starts a thread from JavaScript; the engine is TypeScript, so the loader is registered first.
import { register } from 'tsx/esm/api';

register();
await import('./nodeWorker.ts');
