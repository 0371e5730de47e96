import type { Context } from './context.ts';
import type { ExitCode } from './exit.ts';
import type { OptionName, Typed } from './options.ts';

export interface Command {
  name: string;
  /** What follows the name: "FILE --out DIR". */
  operands: string;
  /** One line for the list of commands. */
  summary: string;
  /** What else a person should know; lines for the command's own help. */
  details: readonly string[];
  options: readonly OptionName[];
  run(typed: Typed, context: Context): Promise<ExitCode>;
}
