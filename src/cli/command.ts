import type { Context } from './context.ts';
import type { ExitCode } from './exit.ts';
import type { OptionName, Typed } from './options.ts';

export interface Command {
  name: string;
  /** The operands in the usage line: "FILE --out DIR". */
  operands: string;
  /** One line for the list of commands. */
  summary: string;
  /** Further lines of the command's own help. */
  details: readonly string[];
  options: readonly OptionName[];
  /** Default values, as the help shows them, of options whose default here differs from that in `OPTIONS`. */
  defaults?: Partial<Record<OptionName, string>>;
  run(typed: Typed, context: Context): Promise<ExitCode>;
}
