import { withValue } from './edit.ts';
import { MARKS } from './marks.ts';
import { type Path, pathFrom, pathText, valueAt } from './path.ts';

/**
 * Values in a file that nobody measured, such as those that a new part starts with. Each part, and the suspension, lists
 * its own under `assumed`, so that the list goes with the part when it is renamed, copied, moved or removed. A path in the
 * list starts at its owner and covers everything below it: `hubMount` covers `hubMount.bore`. A value that the file leaves
 * out is assumed without being listed.
 */

/** Fields that cannot be measured: names, kinds and marks. */
export const NOT_MEASURED: ReadonlySet<unknown> = new Set(['id', 'kind', 'label', 'layout', ...MARKS]);

/** Path of the object whose marks cover a path of the file: the part or the suspension. Undefined if there is none. */
export function ownerOf(path: Path): Path | undefined {
  if (path[0] === 'suspension') return path.slice(0, 1);
  return path[0] === 'parts' && path.length > 1 ? path.slice(0, 2) : undefined;
}

/** Whether a path is that of a value at or below another path. */
export const covers = (one: Path, other: Path): boolean =>
  one.length <= other.length && one.every((step, i) => step === other[i]);

/** The paths in a list of an owner, relative to the owner. Texts that are no path are left out; none without a list. */
export function listedBy(source: unknown, owner: Path, list: 'assumed' | 'fixed' = 'assumed'): Path[] {
  const texts = valueAt(source, [...owner, list]);
  if (!Array.isArray(texts)) return [];
  return texts
    .map((text) => (typeof text === 'string' ? pathFrom(text) : undefined))
    .filter((path) => path !== undefined);
}

function withList(source: unknown, owner: Path, listed: readonly Path[]): unknown {
  const held = valueAt(source, [...owner, 'assumed']);
  if (listed.length === 0)
    return held === undefined ? source : withValue(source, [...owner, 'assumed'], undefined);
  return withValue(source, [...owner, 'assumed'], listed.map(pathText));
}

/** Whether a file lists the value at a path, or any value below it, as assumed. */
export function isListedAssumed(source: unknown, path: Path): boolean {
  const owner = ownerOf(path);
  if (owner === undefined) return false;
  const inner = path.slice(owner.length);
  return listedBy(source, owner).some((listed) => covers(listed, inner) || covers(inner, listed));
}

/** Keys of an object or list whose values can be measured. */
const keysOf = (value: unknown): (string | number)[] =>
  Array.isArray(value)
    ? [...value.keys()]
    : typeof value === 'object' && value !== null
      ? Object.keys(value).filter((key) => !NOT_MEASURED.has(key))
      : [];

/** The file with everything at a path listed as assumed; `path` may be that of a whole part. */
export function withAssumed(source: unknown, path: Path): unknown {
  const owner = ownerOf(path);
  if (owner === undefined) return source;
  const inner = path.slice(owner.length);
  const added = inner.length > 0 ? [inner] : keysOf(valueAt(source, owner)).map((key) => [key]);
  const held = listedBy(source, owner);
  const fresh = added.filter((one) => !held.some((listed) => covers(listed, one)));
  const kept = held.filter((listed) => !fresh.some((one) => covers(one, listed)));
  return withList(source, owner, [...kept, ...fresh]);
}

/** The file with the value at a path, and everything below it, confirmed: no longer listed as assumed. */
export function withoutAssumed(source: unknown, path: Path): unknown {
  const owner = ownerOf(path);
  if (owner === undefined) return source;
  const inner = path.slice(owner.length);
  const without = (listed: Path): Path[] => {
    if (covers(inner, listed)) return [];
    if (!covers(listed, inner)) return [listed];
    // The other values of the group or point that was listed as a whole.
    return keysOf(valueAt(source, [...owner, ...listed])).flatMap((key) => without([...listed, key]));
  };
  return withList(source, owner, listedBy(source, owner).flatMap(without));
}

/**
 * The file with a given value at a path, no longer listed as assumed; an undefined value removes the field. If an item is
 * removed from a list, the items after it stay listed as they were.
 */
export function withGiven(source: unknown, path: Path, value: unknown): unknown {
  const given = withValue(withoutAssumed(source, path), path, value);
  const owner = ownerOf(path);
  const at = path[path.length - 1];
  const list = path.slice(0, -1);
  if (value !== undefined || owner === undefined || typeof at !== 'number' || list.length < owner.length)
    return given;
  const inner = list.slice(owner.length);
  const moved = listedBy(given, owner).map((listed) => {
    const index = listed[inner.length];
    return covers(inner, listed) && typeof index === 'number' && index > at
      ? [...inner, index - 1, ...listed.slice(inner.length + 1)]
      : listed;
  });
  return withList(given, owner, moved);
}
