import { isListedAssumed } from '../assumed.ts';
import { type Path, pathText, snippet, valueAt } from '../path.ts';
import type { Problem } from '../problem.ts';
import type { Readable } from '../readable.ts';

/** Adds one problem at a path; what stands there in the file is quoted with it. */
export type Report = (path: Path, message: string) => void;

/** One kind of contradiction between fields that are each sound on their own. */
export type Check = (file: Readable, report: Report) => void;

/** Runs the checks over what is readable of a file. */
export function runChecks(file: Readable, checks: readonly Check[]): Problem[] {
  const problems: Problem[] = [];
  const report: Report = (path, message) =>
    problems.push({ path: pathText(path), found: snippet(valueAt(file.source, path)), message });
  for (const check of checks) check(file, report);
  return problems;
}

/** `, as assumed` where the file leaves a value out or lists it as assumed; empty where somebody gave it. */
export const assumedNote = (source: unknown, path: Path): string =>
  valueAt(source, path) === undefined || isListedAssumed(source, path) ? ', as assumed' : '';
