/** Exit codes. 64 and above are those of BSD's sysexits.h; 130 is 128 + SIGINT, as shells use it. */
export const EXIT = {
  clear: 0,
  /** Something touches, binds or is tight; with `--strict` also if a clear pair is within the measuring error. */
  short: 1,
  /** A result is unknown or a pose cannot be reached; nothing is known to touch. */
  unknown: 2,
  usage: 64,
  badInput: 65,
  noInput: 66,
  internal: 70,
  noOutput: 73,
  cancelled: 130,
} as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** Ends the command with an error message and an exit code. */
export class Failure extends Error {
  readonly code: ExitCode;
  constructor(code: ExitCode, message: string) {
    super(message);
    this.name = 'Failure';
    this.code = code;
  }
}
