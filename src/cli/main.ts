import { Worker } from 'node:worker_threads';
import { CANCELLED, type CommandLine, type FromCommand } from './commandMessages.ts';
import { EXIT, type ExitCode } from './exit.ts';

/** Time for a cancelled command to remove its draft files, ms; then its threads are ended. */
const GRACE_MS = 250;

/** The built module of the thread, in the folder of this one. */
const COMMAND = new URL('./commandThread.js', import.meta.url);

/**
 * Runs one command line and returns its exit code. The command runs in a thread of its own, so that this thread can react
 * to a signal at once. `command`: URL of the module that the thread runs.
 */
export function run(args: string[], command = COMMAND): Promise<ExitCode> {
  const { stdout, stderr } = process;
  // A reader such as `head` may close the pipe early: this is not an error.
  stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  const line: CommandLine = { args, isTTY: stderr.isTTY === true };
  const thread = new Worker(command, { workerData: line });
  return new Promise((resolve) => {
    const signals = ['SIGINT', 'SIGTERM'] as const;
    let timer: NodeJS.Timeout | undefined;
    let ended = false;
    const end = (code: ExitCode, text = '') => {
      if (ended) return;
      ended = true;
      clearTimeout(timer);
      for (const name of signals) process.off(name, cancel);
      stderr.write(text);
      void thread.terminate();
      resolve(code);
    };
    const cancel = () => {
      thread.postMessage('cancel');
      timer = setTimeout(() => end(EXIT.cancelled, `daylight: ${CANCELLED}\n`), GRACE_MS);
    };
    // Once each: a second Ctrl-C ends the process at once.
    for (const name of signals) process.once(name, cancel);
    thread.on('message', (message: FromCommand) => {
      if (message.kind === 'print') stdout.write(`${message.text}\n`);
      else if (message.kind === 'write') stderr.write(message.text);
      else end(message.code);
    });
    thread.on('error', (error) =>
      end(
        EXIT.internal,
        `daylight: internal error of Daylight, please report it: ${error.stack ?? error.message}\n`,
      ),
    );
  });
}
