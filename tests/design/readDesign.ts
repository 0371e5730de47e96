import type { Design } from '../../src/design/design.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { DesignProblems } from '../../src/units/problem.ts';

/** The design of a corner file, as text or as its JSON. Throws DesignProblems if the file has any. */
export function readDesign(source: unknown): Design {
  const parsed = parseDesign(typeof source === 'string' ? source : JSON.stringify(source));
  if (parsed.kind === 'bad') throw new DesignProblems(parsed.problems);
  return parsed.design;
}
