import { suggest } from '../design/suggest.ts';
import { visible, visibleLines } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { type Context, programVersion } from './context.ts';
import { EXIT, type ExitCode, Failure } from './exit.ts';
import { commandHelp, generalHelp } from './help.ts';
import { readTyped } from './options.ts';

/** By name, in the order of the help. Each module is loaded when it is used: loading takes most of the start-up time. */
const COMMANDS = {
  check: async () => (await import('./check.ts')).check,
  sweep: async () => (await import('./sweep.ts')).sweep,
  vary: async () => (await import('./vary.ts')).vary,
  sensitivity: async () => (await import('./sensitivity.ts')).sensitivity,
  'measuring-error': async () => (await import('./measuringError.ts')).measuringError,
  mockup: async () => (await import('./mockup.ts')).mockup,
  remedy: async () => (await import('./remedy.ts')).remedy,
  limits: async () => (await import('./limits.ts')).limits,
  bolts: async () => (await import('./bolts.ts')).bolts,
  fit: async () => (await import('./fit.ts')).fit,
  audit: async () => (await import('./audit.ts')).audit,
  space: async () => (await import('./space.ts')).space,
  report: async () => (await import('./report.ts')).report,
  drawings: async () => (await import('./drawings.ts')).drawings,
  template: async () => (await import('./template.ts')).template,
  export: async () => (await import('./exportStl.ts')).exportStl,
} satisfies Record<string, () => Promise<Command>>;

/** Runs one command line and returns its exit code. Messages go to standard error, results to standard output. */
export async function runCommand(args: string[], context: Context): Promise<ExitCode> {
  const shown = forTerminal(args);
  try {
    return await dispatch(args, { ...context, print: (text) => context.print(shown(text)) });
  } catch (error) {
    if (error instanceof Failure) {
      context.stderr.write(`daylight: ${shown(error.message)}\n`);
      return error.code;
    }
    const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
    context.stderr.write(`daylight: internal error of Daylight, please report it: ${shown(text)}\n`);
    return EXIT.internal;
  }
}

/**
 * Returns a function that makes a text safe to print on a terminal: it escapes control characters and direction marks,
 * and keeps a quoted argument (a file name) on one line.
 */
function forTerminal(args: readonly string[]): (text: string) => string {
  const unsafe = args.filter((arg) => visible(arg) !== arg);
  return (text) => visibleLines(unsafe.reduce((quoting, arg) => quoting.replaceAll(arg, visible(arg)), text));
}

async function dispatch(args: string[], context: Context): Promise<ExitCode> {
  const [first, ...rest] = args;
  if (first === undefined)
    throw new Failure(EXIT.usage, `a command is missing\n\n${generalHelp(await allCommands())}`);
  if (first === '--version') {
    context.print(await programVersion());
    return EXIT.clear;
  }
  if (first === 'help' || first === '--help' || first === '-h') {
    context.print(
      rest.length === 0 ? generalHelp(await allCommands()) : commandHelp(await commandNamed(rest[0])),
    );
    return EXIT.clear;
  }
  const command = await commandNamed(first);
  const typed = readTyped(command.name, rest, [...command.options, 'help']);
  if (typed.values.has('help')) {
    context.print(commandHelp(command));
    return EXIT.clear;
  }
  return command.run(typed, context);
}

const allCommands = (): Promise<Command[]> => Promise.all(Object.values(COMMANDS).map((load) => load()));

async function commandNamed(name: string): Promise<Command> {
  if (Object.hasOwn(COMMANDS, name)) return COMMANDS[name as keyof typeof COMMANDS]();
  const names = [...Object.keys(COMMANDS), 'help'];
  const what = name.startsWith('-') ? 'an option' : 'a command';
  const near = suggest(name, name.startsWith('-') ? ['--help', '--version'] : names);
  throw new Failure(
    EXIT.usage,
    `"${name}" is not ${what} of daylight.${near} Commands: ${names.join(', ')}.`,
  );
}
