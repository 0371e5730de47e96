import './firstCrew.ts';
import type { FitReply, FitRequest } from './fitWorker.ts';

// The rest loads beside the workers, not before they start. What is told meanwhile waits, in order.
const loaded = import('./fitWorker.ts');
loaded.catch(({ message }: Error) => self.postMessage({ kind: 'failed', why: message } satisfies FitReply));
self.addEventListener('message', ({ data }: MessageEvent<FitRequest>) =>
  loaded.then(
    ({ answer }) => answer(data),
    () => {},
  ),
);
