import { z } from 'zod';
import type { Problem } from '../units/problem.ts';
import { type Path, pathText, snippet, valueAt } from './path.ts';
import { bare, knownKeys, measureOf, optionFor, optionNames, schemaAt } from './schemaWalk.ts';
import { suggest } from './suggest.ts';

/** Problems for the issues that `schema` found in `root`, each with its path and what is allowed. */
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
    const problem = { path: pathText(path), found, message: `${wrong}; write ${allowed}` };
    const misspelt = issue.code === 'invalid_union' ? misspeltDiscriminator(root, issue) : undefined;
    return misspelt === undefined ? [problem] : [problem, misspelt];
  });
}

/** The field whose name resembles that of a union's missing discriminator: without it, no other field is checked. */
function misspeltDiscriminator(root: unknown, issue: z.core.$ZodIssueInvalidUnion): Problem | undefined {
  const path = issue.path as Path;
  const parent = valueAt(root, path.slice(0, -1));
  const { discriminator } = issue;
  if (discriminator === undefined || valueAt(root, path) !== undefined) return undefined;
  if (typeof parent !== 'object' || parent === null) return undefined;
  const key = Object.keys(parent).find((name) => suggest(name, [discriminator]) !== '');
  return key === undefined
    ? undefined
    : unknownField([...path.slice(0, -1), key], parent, key, [discriminator]);
}

/** Suggests a missing field of the object first, then a present one: a misspelt name usually means a missing field. */
function unknownField(path: Path, parent: unknown, key: string, known: string[]): Problem {
  const lacking = known.filter((name) => valueAt(parent, [name]) === undefined);
  const near = suggest(key, lacking) || suggest(key, known);
  const found = snippet(valueAt(parent, [key]));
  return { path: pathText(path), found, message: `is not a field known here.${near}` };
}

/** The allowed discriminator values if the issue is about a union's discriminator; else undefined. */
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

/** What a schema allows, as words that follow "write". */
function allowedBy(schema: z.core.$ZodType, value: unknown): string {
  if (measureOf(schema) === 'length')
    return 'a length: a number of millimetres, or text such as "5 1/2 in ±1/32"';
  const inner = optionFor(schema, value) ?? bare(schema);
  if (measureOf(schema) === 'angle' && inner instanceof z.ZodUnion) return angleAllowed(inner);
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
  if (inner instanceof z.ZodUnion && !(inner instanceof z.ZodDiscriminatedUnion))
    return 'true, false, or a list [ ] of paths such as "thickness"';
  if (inner instanceof z.ZodArray) return 'a list [ ] with enough entries';
  return 'an object { }';
}

function angleAllowed({ options: [number] }: z.ZodUnion): string {
  const { minValue, maxValue } = number as z.ZodNumber;
  const hasRange = Number.isFinite(minValue) && Number.isFinite(maxValue);
  const range = hasRange ? ` from ${minValue}° to ${maxValue}°` : '';
  return `an angle${range}: a number of degrees, or text such as "0.5°"`;
}

function numberAllowed(schema: z.ZodNumber): string {
  const what = schema.format === 'safeint' ? 'a whole number' : 'a plain number';
  const [least, most] = [schema.minValue ?? -Infinity, schema.maxValue ?? Infinity];
  // The default bounds of whole numbers (what a double holds exactly) are no help to a reader.
  return Math.abs(least) < 1e9 && Math.abs(most) < 1e9 ? `${what} from ${least} to ${most}` : what;
}
