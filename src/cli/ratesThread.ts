import { parentPort } from 'node:worker_threads';
import { serveRates } from '../studies/sensitivity/ratesProtocol.ts';

const port = parentPort;
if (port === null) throw new Error('ratesThread runs only as a worker thread');
port.on(
  'message',
  serveRates((message) => port.postMessage(message)),
);
