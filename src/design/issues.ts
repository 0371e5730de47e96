import { z } from 'zod';
import { type Path, pathText, snippet, valueAt } from './path.ts';
import type { Problem } from './problem.ts';
import { bare, knownKeys, measureOf, optionFor, optionNames, schemaAt } from './schemaWalk.ts';
import { suggest } from './suggest.ts';

/** Turns what `schema` found wrong with `root` into problems: every one with its path and what is allowed. */
export function problemsOf(
  schema: z.core.$ZodType,
  root: unknown,
  issues: readonly z.core.$ZodIssue[],
): Problem[] {
  return issues.flatMap((issue) => {
    const path = issue.path as Path;
    const value = valueAt(root, path);
    const at = schemaAt(schema, root, path);
    if (issue.code === 'unrecognized_keys') {
      const known = at === undefined ? [] : knownKeys(at, value);
      return issue.keys.map((key) => unknownField([...path, key], value, key, known));
    }
    const found = snippet(value);
    if (issue.code === 'custom') return [{ path: pathText(path), found, message: issue.message }];
    const allowed = unionAllowed(schema, root, issue, value) ?? (at && allowedBy(at, value)) ?? issue.message;
    const wrong = value === undefined ? 'is missing' : 'is not allowed here';
    return [{ path: pathText(path), found, message: `${wrong}; write ${allowed}` }];
  });
}

/** A misspelt name is nearer to one that the object still lacks than to one that it has. */
function unknownField(path: Path, parent: unknown, key: string, known: string[]): Problem {
  const lacking = known.filter((name) => valueAt(parent, [name]) === undefined);
  const near = suggest(key, lacking) || suggest(key, known);
  const found = snippet(valueAt(parent, [key]));
  return { path: pathText(path), found, message: `is not a field known here.${near}` };
}

/** The names allowed where an issue is about the field that tells a union's options apart; undefined elsewhere. */
function unionAllowed(
  schema: z.core.$ZodType,
  root: unknown,
  issue: z.core.$ZodIssue,
  value: unknown,
): string | undefined {
  if (issue.code !== 'invalid_union' || issue.discriminator === undefined) return undefined;
  const union = schemaAt(schema, root, issue.path.slice(0, -1) as Path);
  return union && oneOf(optionNames(union), value);
}

function oneOf(names: readonly unknown[], value: unknown): string {
  const list = names.map((name) => JSON.stringify(name)).join(', ');
  const texts = names.filter((name) => typeof name === 'string');
  const near = typeof value === 'string' ? suggest(value, texts) : '';
  return `${names.length === 1 ? '' : 'one of '}${list}.${near}`;
}

/** What a schema allows, in words that follow "write". */
export function allowedBy(schema: z.core.$ZodType, value: unknown): string {
  if (measureOf(schema) === 'length')
    return 'a length: a number of millimetres, or text such as "5 1/2 in ±1/32"';
  const inner = optionFor(schema, value) ?? bare(schema);
  if (inner instanceof z.ZodEnum) return oneOf(inner.options, value);
  if (inner instanceof z.ZodLiteral) return oneOf([...inner.values], value);
  if (inner instanceof z.ZodBoolean) return 'true or false';
  if (inner instanceof z.ZodNumber) return numberAllowed(inner);
  if (inner instanceof z.ZodString) {
    const name = inner.def.checks?.some((check) => check._zod.def.check === 'string_format');
    return name
      ? 'a name of letters, digits, - and _ that begins with a letter'
      : 'text in double quotes, not empty';
  }
  if (inner instanceof z.ZodTuple) return `a list [ ] of ${inner.def.items.length} values`;
  if (inner instanceof z.ZodArray) return 'a list [ ] with enough entries';
  return 'an object { }';
}

function numberAllowed(schema: z.ZodNumber): string {
  const what = schema.format === 'safeint' ? 'a whole number' : 'a plain number';
  const [least, most] = [schema.minValue ?? -Infinity, schema.maxValue ?? Infinity];
  // Schemas bound whole numbers by what a double holds exactly, which tells a reader nothing.
  return Math.abs(least) < 1e9 && Math.abs(most) < 1e9 ? `${what} from ${least} to ${most}` : what;
}
