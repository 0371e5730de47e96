import { Worker } from 'node:worker_threads';
import { CANCELLED, type CommandLine, type FromCommand } from './commandMessages.ts';
import { EXIT, type ExitCode } from './exit.ts';

/** A cancelled command has this long to remove its drafts, ms; then its threads are ended. */
const GRACE_MS = 250;

/** As it is built, beside this module. */
const COMMAND = new URL('./commandThread.js', import.meta.url);

/**
 * Runs one command line and returns its exit code. The command has a thread of its own: this one is always free, so that
 * a signal takes effect at once whatever the command computes. `command`: what that thread runs.
 */
export function run(args: string[], command = COMMAND): Promise<ExitCode> {
  const { stdout, stderr } = process;
  // A reader that has seen enough (`| head`) closes the pipe: no fault of ours.
  stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  const line: CommandLine = { args, isTTY: stderr.isTTY === true };
  const thread = new Worker(command, { workerData: line });
  return new Promise((resolve) => {
    const signals = ['SIGINT', 'SIGTERM'] as const;
    let timer: NodeJS.Timeout | undefined;
    let ended = false;
    const end = (code: ExitCode, words = '') => {
      if (ended) return;
      ended = true;
      clearTimeout(timer);
      for (const name of signals) process.off(name, cancel);
      stderr.write(words);
      void thread.terminate();
      resolve(code);
    };
    const cancel = () => {
      thread.postMessage('cancel');
      timer = setTimeout(() => end(EXIT.cancelled, `daylight: ${CANCELLED}\n`), GRACE_MS);
    };
    // Once each: a second Ctrl-C ends the process at once, as it would any other.
    for (const name of signals) process.once(name, cancel);
    thread.on('message', (message: FromCommand) => {
      if (message.kind === 'print') stdout.write(`${message.text}\n`);
      else if (message.kind === 'write') stderr.write(message.text);
      else end(message.code);
    });
    thread.on('error', (error) =>
      end(
        EXIT.internal,
        `daylight: a fault of Daylight itself, please report it: ${error.stack ?? error.message}\n`,
      ),
    );
  });
}
