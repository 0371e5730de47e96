import { visible, visibleLines } from '../design/plainText.ts';
import { suggest } from '../design/suggest.ts';
import { audit } from './audit.ts';
import { bolts } from './bolts.ts';
import { check } from './check.ts';
import type { Command } from './command.ts';
import { type Context, programVersion } from './context.ts';
import { EXIT, type ExitCode, Failure } from './exit.ts';
import { exportStl } from './exportStl.ts';
import { fit } from './fit.ts';
import { commandHelp, generalHelp } from './help.ts';
import { readTyped } from './options.ts';
import { report } from './report.ts';
import { sweep } from './sweep.ts';
import { vary } from './vary.ts';

const COMMANDS: readonly Command[] = [check, sweep, vary, bolts, fit, audit, report, exportStl];

/** Runs one command line and returns its exit code. Messages go to standard error, results to standard output. */
export async function run(args: string[]): Promise<ExitCode> {
  const cancel = new AbortController();
  // Once each: a second Ctrl-C ends the process at once, as it would any other.
  for (const name of ['SIGINT', 'SIGTERM'] as const)
    process.once(name, () => cancel.abort(new Failure(EXIT.cancelled, 'cancelled; nothing was written')));
  // A reader that has seen enough (`| head`) closes the pipe: no fault of ours.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  const shown = forTerminal(args);
  const context: Context = {
    signal: cancel.signal,
    print: (text) => void process.stdout.write(`${shown(text)}\n`),
    stderr: process.stderr,
  };
  try {
    return await dispatch(args, context);
  } catch (error) {
    if (error instanceof Failure) {
      process.stderr.write(`daylight: ${shown(error.message)}\n`);
      return error.code;
    }
    const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
    process.stderr.write(`daylight: a fault of Daylight itself, please report it: ${shown(words)}\n`);
    return EXIT.internal;
  }
}

/**
 * Makes a text safe to print on a terminal: no line but our own, nothing that moves or reorders it. An argument (a file
 * name) that the text quotes stays on its line.
 */
function forTerminal(args: readonly string[]): (text: string) => string {
  const unsafe = args.filter((arg) => visible(arg) !== arg);
  return (text) => visibleLines(unsafe.reduce((quoting, arg) => quoting.replaceAll(arg, visible(arg)), text));
}

async function dispatch(args: string[], context: Context): Promise<ExitCode> {
  const [first, ...rest] = args;
  if (first === undefined) throw new Failure(EXIT.usage, `a command is missing\n\n${generalHelp(COMMANDS)}`);
  if (first === '--version') {
    context.print(await programVersion());
    return EXIT.clear;
  }
  if (first === 'help' || first === '--help' || first === '-h') {
    context.print(rest.length === 0 ? generalHelp(COMMANDS) : commandHelp(commandNamed(rest[0])));
    return EXIT.clear;
  }
  const command = commandNamed(first);
  const typed = readTyped(command.name, rest, [...command.options, 'help']);
  if (typed.values.has('help')) {
    context.print(commandHelp(command));
    return EXIT.clear;
  }
  return command.run(typed, context);
}

function commandNamed(name: string): Command {
  const found = COMMANDS.find((command) => command.name === name);
  if (found !== undefined) return found;
  const names = [...COMMANDS.map((command) => command.name), 'help'];
  const what = name.startsWith('-') ? 'an option' : 'a command';
  const near = suggest(name, name.startsWith('-') ? ['--help', '--version'] : names);
  throw new Failure(
    EXIT.usage,
    `"${name}" is not ${what} of daylight.${near} Commands: ${names.join(', ')}.`,
  );
}
