import { withAssumed, withGiven } from '../../design/assumed.ts';
import { freeId, withPart, withValue } from '../../design/edit.ts';
import { type ListField, partKinds, type ValueField } from '../../design/fields.ts';
import { parseDesign } from '../../design/parse.ts';
import { valueAt } from '../../design/path.ts';
import type { Corner, PartKind } from '../../design/schema.ts';
import { problemInWords } from './fieldText.ts';
import { entriesOf } from './partOf.ts';
import { KIND_NAMES, startingPart } from './startingParts.ts';

const problemsIn = (source: unknown) => {
  const parsed = parseDesign(JSON.stringify(source));
  return parsed.kind === 'bad' ? parsed.problems : [];
};

/** What would be wrong with a changed file that is not wrong with it now, in words; undefined where nothing. */
export function objection(source: unknown, changed: unknown): string | undefined {
  const problems = problemsIn(changed);
  if (problems.length === 0) return undefined;
  const before = new Set(problemsIn(source).map(({ message }) => message));
  const [first] = problems.filter(({ message }) => !before.has(message));
  if (first === undefined) return undefined;
  const part = /^parts\[(\d+)\]/.exec(first.path)?.[1];
  const id = part === undefined ? undefined : valueAt(changed, ['parts', Number(part), 'id']);
  return `${typeof id === 'string' ? id : first.path}: ${problemInWords(first.message, changed)}`;
}

/** A part that may be added: the file with it, or why a corner cannot have it now. */
export interface Addition {
  kind: PartKind;
  name: string;
  id: string;
  changed: unknown;
  /** Undefined where the part can be added. */
  why: string | undefined;
}

/** Every kind of part, each with starting dimensions beside what `corner`, the sound state of `source`, has. */
export const additions = (source: unknown, corner: Corner): Addition[] => {
  const kinds = Object.keys(KIND_NAMES) as PartKind[];
  return kinds
    .filter((kind) => partKinds().includes(kind))
    .map((kind) => {
      const id = freeId(source, kind);
      const name = KIND_NAMES[kind];
      const label = `${name} ${id.slice(kind.length)}`.trim();
      const added = withPart(source, { id, label, ...startingPart(kind, corner) });
      const changed = withAssumed(added, ['parts', entriesOf(source).length]);
      return { kind, name, id, changed, why: shortWhy(objection(source, changed)) };
    });
};

const shortWhy = (why: string | undefined): string | undefined =>
  why === undefined
    ? undefined
    : /a corner has one$/.test(why)
      ? 'a corner has one of each, and has it'
      : why.replace(/^\w+: /, '');

/**
 * The file with what was typed into a field: an item of a list is emptied, never taken out, and a list that was assumed is
 * written whole.
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
