/** Row after a key press in a list of `count` rows; `at` is the selected row, -1 for none. Undefined for other keys. */
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
