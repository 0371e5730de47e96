import type { ExitCode } from './exit.ts';

/** Input of a command's thread. */
export interface CommandLine {
  args: string[];
  /** Whether standard error is a terminal. */
  isTTY: boolean;
}

/** Messages from a command's thread. Any message to it cancels the command. */
export type FromCommand =
  /** One or more lines for standard output. */
  | { kind: 'print'; text: string }
  /** Text for standard error. */
  | { kind: 'write'; text: string }
  | { kind: 'end'; code: ExitCode };

export const CANCELLED = 'cancelled; nothing was written';
