import type { Problem } from '../units/problem.ts';
import { type Path, pathText, snippet } from './path.ts';

export type JsonRead =
  /** `problems` concern single fields; the rest of the file can still be checked. */
  { kind: 'read'; value: unknown; problems: Problem[] } | { kind: 'unreadable'; problems: Problem[] };

/** Deepest nesting allowed: deeper than any corner file, and small enough for the stack. */
const DEEPEST = 60;
const SPACE = /[ \t\r\n]*/y;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /true|false|null/y;

class SyntaxProblem extends Error {
  readonly at: number;
  constructor(at: number, message: string) {
    super(message);
    this.at = at;
  }
}

/**
 * Reads JSON (RFC 8259). Unlike `JSON.parse`, it reports line and column in the same words in every runtime, and rejects
 * a field written twice in one object (`JSON.parse` keeps the last) and a field named `__proto__`.
 */
export function readJson(text: string): JsonRead {
  const problems: Problem[] = [];
  let at = text.startsWith('\uFEFF') ? 1 : 0;

  const match = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at;
    const found = pattern.exec(text)?.[0];
    if (found !== undefined) at += found.length;
    return found;
  };
  /** A valid quoted text with its quotes; undefined if there is no quote here. */
  const quoted = (): string | undefined => {
    if (text[at] !== '"') return undefined;
    let end = at + 1;
    while (end < text.length && text[end] !== '"') end += text[end] === '\\' ? 2 : 1;
    const found = text.slice(at, end + 1);
    try {
      JSON.parse(found);
    } catch {
      fail('this text is not closed, or contains a line break or an unknown \\ sequence');
    }
    at = end + 1;
    return found;
  };
  const skip = () => match(SPACE);
  const take = (mark: string): boolean => {
    skip();
    if (text[at] !== mark) return false;
    at += 1;
    return true;
  };
  const fail = (expected: string): never => {
    throw new SyntaxProblem(at, expected);
  };

  const value = (path: Path): unknown => {
    if (path.length > DEEPEST) fail(`objects and lists nest deeper than ${DEEPEST}`);
    if (take('{')) return object(path);
    if (take('[')) return list(path);
    const start = at;
    const found = quoted() ?? match(NUMBER) ?? match(WORD);
    if (found === undefined) return fail('a value is expected');
    const parsed: unknown = JSON.parse(found);
    if (parsed === Infinity || parsed === -Infinity) {
      at = start;
      fail('this number is too large');
    }
    return parsed;
  };

  const object = (path: Path): unknown => {
    const result: Record<string, unknown> = {};
    if (take('}')) return result;
    do {
      skip();
      const name = quoted() ?? fail('a field name in double quotes is expected');
      const key = JSON.parse(name) as string;
      if (!take(':')) fail('a colon is expected after a field name');
      const here = [...path, key];
      const held = value(here);
      if (key === '__proto__') {
        problems.push({
          path: pathText(here),
          found: snippet(held),
          message: 'is not a field that a corner file may have',
        });
      } else if (Object.hasOwn(result, key)) {
        problems.push({
          path: pathText(here),
          found: snippet(held),
          message: 'is written twice; keep one of the two',
        });
      } else {
        result[key] = held;
      }
    } while (take(','));
    if (!take('}')) fail('a comma or a closing } is expected');
    return result;
  };

  const list = (path: Path): unknown => {
    const result: unknown[] = [];
    if (take(']')) return result;
    do result.push(value([...path, result.length]));
    while (take(','));
    if (!take(']')) fail('a comma or a closing ] is expected');
    return result;
  };

  try {
    const read = value([]);
    skip();
    if (at < text.length) fail('the file should end here');
    return { kind: 'read', value: read, problems };
  } catch (error) {
    if (!(error instanceof SyntaxProblem)) throw error;
    return { kind: 'unreadable', problems: [...problems, syntaxProblem(text, error)] };
  }
}

/** The problem with its line and column, both counted from 1 as in editors. */
function syntaxProblem(text: string, { at, message }: SyntaxProblem): Problem {
  const before = text.slice(0, at);
  const lineStart = Math.max(before.lastIndexOf('\n'), before.lastIndexOf('\r')) + 1;
  const line = before.split(/\r\n|\r|\n/).length;
  const column = at - lineStart + 1;
  const rest = text.slice(at).split(/[\r\n]/, 1)[0];
  const found = rest.length > 40 ? `${rest.slice(0, 40)}...` : rest;
  const place = at >= text.length ? 'at the end of the file' : `line ${line}, column ${column}`;
  return { path: '', found, message: `not readable as JSON, ${place}: ${message}` };
}
