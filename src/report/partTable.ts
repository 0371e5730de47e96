import type { Table } from './content.ts';

/** Pairs grouped by their first part: one row for each, with all its second parts. */
export function partTable(title: string, pairs: readonly (readonly [string, string])[]): Table {
  const others = new Map<string, string[]>();
  for (const [first, second] of pairs) others.set(first, [...(others.get(first) ?? []), second]);
  return {
    kind: 'table',
    columns: [{ title: 'Part' }, { title }],
    rows: [...others].map(([part, names]) => ({ cells: [part, names.join(', ')] })),
  };
}
