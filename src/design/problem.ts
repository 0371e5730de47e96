/** One thing wrong with a corner file: where, what was found, what is allowed. */
export interface Problem {
  /** Path of the field: `parts[3].clockingDeg`; empty for the file as a whole. */
  path: string;
  /** The value found, as it stands in the file, shortened; empty where nothing was there. */
  found: string;
  /** What is wrong and what would be right, one sentence. */
  message: string;
}

/** Any step that needs a sound corner throws this with every problem it can see. */
export class DesignProblems extends Error {
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super(problems.map((p) => (p.path === '' ? p.message : `${p.path}: ${p.message}`)).join('\n'));
    this.name = 'DesignProblems';
    this.problems = problems;
  }
}
