import type { Problem } from '../../units/problem.ts';
import { isListedAssumed } from '../assumed.ts';
import { type Path, pathText, snippet, valueAt } from '../path.ts';
import type { Readable } from '../readable.ts';

/** Adds one problem at a path, with the value in the file there. `against`: path of the value that it contradicts. */
export type Report = (path: Path, message: string, more?: Pick<Problem, 'code'> & { against?: Path }) => void;

/** A check for contradictions between fields that are each valid. */
export type Check = (file: Readable, report: Report) => void;

/** Runs the checks on the readable pieces of a file. */
export function runChecks(file: Readable, checks: readonly Check[]): Problem[] {
  const problems: Problem[] = [];
  const report: Report = (path, message, { against, ...more } = {}) =>
    problems.push({
      path: pathText(path),
      found: snippet(valueAt(file.source, path)),
      message,
      ...more,
      ...(against === undefined ? {} : { against: pathText(against) }),
    });
  for (const check of checks) check(file, report);
  return problems;
}

/** `, as assumed` if the file leaves a value out or lists it as assumed; else empty. */
export const assumedNote = (source: unknown, path: Path): string =>
  valueAt(source, path) === undefined || isListedAssumed(source, path) ? ', as assumed' : '';
