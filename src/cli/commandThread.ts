import { parentPort, workerData } from 'node:worker_threads';
import { CANCELLED, type CommandLine, type FromCommand } from './commandMessages.ts';
import { runCommand } from './dispatch.ts';
import { EXIT, Failure } from './exit.ts';

const port = parentPort;
if (port === null) throw new Error('commandThread runs only as a worker thread');
const send = (message: FromCommand) => port.postMessage(message);
const { args, isTTY } = workerData as CommandLine;
const cancel = new AbortController();
port.on('message', () => cancel.abort(new Failure(EXIT.cancelled, CANCELLED)));
const code = await runCommand(args, {
  signal: cancel.signal,
  print: (text) => send({ kind: 'print', text }),
  stderr: { isTTY, write: (text) => send({ kind: 'write', text }) },
});
send({ kind: 'end', code });
