/** One problem in a corner file: where it is, what was found, what is allowed. */
export interface Problem {
  /** Path of the field: `parts[3].clockingDeg`; empty for the file as a whole. */
  path: string;
  /** The value in the file, shortened; empty if there was none. */
  found: string;
  /** One sentence: what is wrong and what to write. */
  message: string;
  /** What is wrong, for code that handles some problems specially. */
  code?: ProblemCode;
  /** Path of the other value that this one contradicts. */
  against?: string;
}

/** `onlyOne`: a corner already has the part. */
export type ProblemCode = 'onlyOne';

/** Thrown by steps that need a valid corner, with every problem found. */
export class DesignProblems extends Error {
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super(problems.map((p) => (p.path === '' ? p.message : `${p.path}: ${p.message}`)).join('\n'));
    this.name = 'DesignProblems';
    this.problems = problems;
  }
}
