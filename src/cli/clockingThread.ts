import { parentPort } from 'node:worker_threads';
import { serveClocking } from '../studies/clocking/clockingDesk.ts';

const port = parentPort;
if (port === null) throw new Error('this file is the inside of a worker thread');
port.on(
  'message',
  serveClocking((message) => port.postMessage(message)),
);
