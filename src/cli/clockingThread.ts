import { parentPort } from 'node:worker_threads';
import { serveClocking } from '../studies/clocking/clockingProtocol.ts';

const port = parentPort;
if (port === null) throw new Error('clockingThread runs only as a worker thread');
port.on(
  'message',
  serveClocking((message) => port.postMessage(message)),
);
