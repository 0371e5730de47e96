import { create } from 'zustand';
import type { Field } from '../../design/fields.ts';
import { type Path, pathText, valueAt } from '../../design/path.ts';
import { useCorner } from '../stores/cornerStore.ts';

/**
 * Values that came with a part or a group to start from, by where they stand: nobody measured them. They count as guesses
 * while the file holds just them; what is typed over or confirmed is one no more.
 */
export const useGuesses = create<{ guesses: ReadonlyMap<string, string> }>(() => ({ guesses: new Map() }));

/** Where a value stands, whatever place its part has in the file, and in which of the files opened. */
function keyOf(source: unknown, path: Path): string {
  const { opened } = useCorner.getState();
  const [list, at, ...rest] = path;
  if (list !== 'parts') return `${opened} ${pathText(path)}`;
  return `${opened} ${valueAt(source, ['parts', at, 'id'])} ${pathText(rest)}`;
}

/** Paths of all single values at and under a path of a file, names of parts and kinds left out. */
function leavesAt(source: unknown, path: Path): Path[] {
  const value = valueAt(source, path);
  if (typeof value !== 'object' || value === null)
    return /^(id|kind|label)$/.test(String(path[path.length - 1])) ? [] : [path];
  return (Array.isArray(value) ? [...value.keys()] : Object.keys(value)).flatMap((key) =>
    leavesAt(source, [...path, key]),
  );
}

/** Notes all that a file holds at a path as guesses. */
export function noteGuesses(source: unknown, path: Path): void {
  const noted = leavesAt(source, path).map(
    (leaf) => [keyOf(source, leaf), JSON.stringify(valueAt(source, leaf))] as const,
  );
  useGuesses.setState(({ guesses }) => ({ guesses: new Map([...guesses, ...noted]) }));
}

/** What a file holds at a path is what the person has. */
export function confirmGuess(source: unknown, path: Path): void {
  const confirmed = new Set(leavesAt(source, path).map((leaf) => keyOf(source, leaf)));
  useGuesses.setState(({ guesses }) => ({
    guesses: new Map([...guesses].filter(([key]) => !confirmed.has(key))),
  }));
}

/** Guesses of a part keep with it when its id changes. */
export function carryGuesses(source: unknown, changed: unknown, at: number): void {
  const { guesses } = useGuesses.getState();
  const moved = leavesAt(source, ['parts', at]).flatMap((leaf) => {
    const guess = guesses.get(keyOf(source, leaf));
    return guess === undefined ? [] : [[keyOf(changed, leaf), guess] as const];
  });
  useGuesses.setState({ guesses: new Map([...guesses, ...moved]) });
}

/** Whether a value, or any of a list's, still is the guess that it began as. */
export function isGuess(
  guesses: ReadonlyMap<string, string>,
  source: unknown,
  { path }: Pick<Field, 'path'>,
): boolean {
  if (guesses.size === 0) return false;
  return leavesAt(source, path).some((leaf) => {
    const guess = guesses.get(keyOf(source, leaf));
    return guess !== undefined && guess === JSON.stringify(valueAt(source, leaf));
  });
}
