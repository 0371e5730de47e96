import { parentPort, workerData } from 'node:worker_threads';
import { CANCELLED, type CommandLine, type FromCommand } from './commandMessages.ts';
import { runCommand } from './dispatch.ts';
import { EXIT, Failure } from './exit.ts';

const port = parentPort;
if (port === null) throw new Error('this file is the inside of a worker thread');
const tell = (message: FromCommand) => port.postMessage(message);
const { args, isTTY } = workerData as CommandLine;
const cancel = new AbortController();
port.on('message', () => cancel.abort(new Failure(EXIT.cancelled, CANCELLED)));
const code = await runCommand(args, {
  signal: cancel.signal,
  print: (text) => tell({ kind: 'print', text }),
  stderr: { isTTY, write: (text) => tell({ kind: 'write', text }) },
});
tell({ kind: 'end', code });
