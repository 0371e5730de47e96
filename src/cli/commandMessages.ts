import type { ExitCode } from './exit.ts';

/** What the thread of a command starts with. */
export interface CommandLine {
  args: string[];
  /** Whether standard error is a terminal. */
  isTTY: boolean;
}

/** What the thread of a command sends. Any message to it cancels the command. */
export type FromCommand =
  /** A line, or several, for standard output. */
  | { kind: 'print'; text: string }
  /** Text for standard error. */
  | { kind: 'write'; text: string }
  | { kind: 'end'; code: ExitCode };

export const CANCELLED = 'cancelled; nothing was written';
