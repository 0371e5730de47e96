import { parentPort } from 'node:worker_threads';
import { serveSpace } from '../studies/sweptSpace/spaceProtocol.ts';

const port = parentPort;
if (port === null) throw new Error('spaceThread runs only as a worker thread');
port.on(
  'message',
  serveSpace((message, transfer) => port.postMessage(message, transfer)),
);
