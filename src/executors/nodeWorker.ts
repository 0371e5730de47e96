import { parentPort } from 'node:worker_threads';
import { serve } from './protocol.ts';
import { inSharedMemory } from './sharedMemory.ts';

const port = parentPort;
if (port === null) throw new Error('this module runs only in a worker thread');
port.on(
  'message',
  serve((message, transfer) =>
    // Bodies go to all threads, so they are put into shared memory.
    port.postMessage(message.kind === 'bodies' ? inSharedMemory(message) : message, transfer),
  ),
);
