import { withAssumed, withGiven } from '../../design/assumed.ts';
import { freeId, withPart, withValue } from '../../design/edit.ts';
import type { ListField, ValueField } from '../../design/fields.ts';
import { parseDesign } from '../../design/parse.ts';
import { valueAt } from '../../design/path.ts';
import type { Corner, PartKind } from '../../design/schema.ts';
import { kindOf, partKinds } from '../../parts/kindOf.ts';
import type { Problem } from '../../units/problem.ts';
import { problemInWords } from './fieldText.ts';
import { entriesOf } from './partEntries.ts';
import { startingPart } from './startingParts.ts';

const problemsIn = (source: unknown) => {
  const parsed = parseDesign(JSON.stringify(source));
  return parsed.kind === 'bad' ? parsed.problems : [];
};

/** First problem of a changed file that the unchanged file does not have; undefined if there is none. */
function firstNewProblem(source: unknown, changed: unknown): Problem | undefined {
  const problems = problemsIn(changed);
  if (problems.length === 0) return undefined;
  const before = new Set(problemsIn(source).map(({ message }) => message));
  return problems.find(({ message }) => !before.has(message));
}

/** The same in words, after the id of the part or the path of the field. */
export function newProblem(source: unknown, changed: unknown): string | undefined {
  const first = firstNewProblem(source, changed);
  if (first === undefined) return undefined;
  const part = /^parts\[(\d+)\]/.exec(first.path)?.[1];
  const id = part === undefined ? undefined : valueAt(changed, ['parts', Number(part), 'id']);
  return `${typeof id === 'string' ? id : first.path}: ${problemInWords(first.message, changed)}`;
}

/** A part to add: the file with it, and why it cannot be added. */
export interface Addition {
  kind: PartKind;
  name: string;
  id: string;
  changed: unknown;
  /** Undefined if the part can be added. */
  why: string | undefined;
}

/** One addition for each kind of part, with starting dimensions that fit `corner`, the last valid state of `source`. */
export const additions = (source: unknown, corner: Corner): Addition[] =>
  partKinds().map((kind) => {
    const id = freeId(source, kind);
    const { name } = kindOf(kind);
    const label = `${name} ${id.slice(kind.length)}`.trim();
    const added = withPart(source, { id, label, ...startingPart(kind, corner) });
    const changed = withAssumed(added, ['parts', entriesOf(source).length]);
    const problem = firstNewProblem(source, changed);
    return { kind, name, id, changed, why: problem && whyRefused(problem, changed) };
  });

const whyRefused = ({ code, message }: Problem, changed: unknown): string =>
  code === 'onlyOne' ? 'a corner already has one' : problemInWords(message, changed);

/**
 * The file with a new value in a field. An item of a list is emptied, never removed; an assumed list is written in full.
 */
export function withTyped(source: unknown, field: ValueField, value: unknown, list?: ListField): unknown {
  if (list !== undefined && list.typed === undefined) {
    const items = list.items.map((item) =>
      item.key === field.key ? (value ?? '') : 'fallback' in item ? item.fallback : item.typed,
    );
    return withValue(source, list.path, items);
  }
  return withGiven(source, field.path, value === undefined && typeof field.key === 'number' ? '' : value);
}
