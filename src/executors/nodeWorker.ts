import { parentPort } from 'node:worker_threads';
import { serve } from './protocol.ts';

const port = parentPort;
if (port === null) throw new Error('this file is the inside of a worker thread');
port.on(
  'message',
  serve((message, transfer) => port.postMessage(message, transfer)),
);
