import { valueAt } from '../../design/path.ts';
import { kindOf } from '../../parts/kindOf.ts';
import { KINDS, type PartKind } from '../../parts/kinds.ts';

/** Entries of `parts` in a file, valid or not; empty if there is no list. */
export const entriesOf = (source: unknown): readonly unknown[] => {
  const parts = valueAt(source, ['parts']);
  return Array.isArray(parts) ? parts : [];
};

const textAt = (entry: unknown, key: string): string | undefined => {
  const text = valueAt(entry, [key]);
  return typeof text === 'string' && text.trim() !== '' ? text : undefined;
};

export const idOf = (entry: unknown): string | undefined => textAt(entry, 'id');

/** Name of a part: its label, else its id, else the name of its kind. */
export const nameOf = (entry: unknown): string =>
  textAt(entry, 'label') ?? textAt(entry, 'id') ?? kindNameOf(entry) ?? 'Part';

export function kindNameOf(entry: unknown): string | undefined {
  const kind = textAt(entry, 'kind');
  return kind !== undefined && Object.hasOwn(KINDS, kind) ? kindOf(kind as PartKind).name : undefined;
}
