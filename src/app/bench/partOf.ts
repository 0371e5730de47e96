import { valueAt } from '../../design/path.ts';
import { KIND_NAMES } from './startingParts.ts';

/** Entries of the file in hand, sound or not. */
export const entriesOf = (source: unknown): readonly unknown[] => {
  const parts = valueAt(source, ['parts']);
  return Array.isArray(parts) ? parts : [];
};

const textAt = (entry: unknown, key: string): string | undefined => {
  const text = valueAt(entry, [key]);
  return typeof text === 'string' && text.trim() !== '' ? text : undefined;
};

export const idOf = (entry: unknown): string | undefined => textAt(entry, 'id');

/** What a part of the file is called: its label, or what the parts list calls it. */
export const nameOf = (entry: unknown): string =>
  textAt(entry, 'label') ?? textAt(entry, 'id') ?? kindNameOf(entry) ?? 'Part';

export function kindNameOf(entry: unknown): string | undefined {
  const kind = textAt(entry, 'kind');
  return kind !== undefined && Object.hasOwn(KIND_NAMES, kind)
    ? KIND_NAMES[kind as keyof typeof KIND_NAMES]
    : undefined;
}
