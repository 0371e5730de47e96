/** The row that a key leads to in a list of so many rows, from the row chosen (-1 for none); undefined for another key. */
export function nextInList(key: string, at: number, count: number): number | undefined {
  const last = count - 1;
  if (last < 0) return undefined;
  const next: Record<string, number> = {
    ArrowDown: Math.min(last, at + 1),
    ArrowUp: Math.max(0, at - 1),
    Home: 0,
    End: last,
  };
  return next[key];
}
