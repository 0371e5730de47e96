import { withValue } from './edit.ts';
import { type Path, pathFrom, pathText, valueAt } from './path.ts';

/**
 * Values that a file holds though nobody measured them: what a part began with. Each part, and the suspension, lists its
 * own under `assumed`, so that the list goes with it when it is renamed, copied, moved or taken out. A path there begins
 * at its owner and covers all that is under it: `hubMount` covers `hubMount.bore`. What a file leaves out is assumed
 * without being listed.
 */

/** What things are called and what they are is nothing that could be measured. */
export const NOT_MEASURED: ReadonlySet<unknown> = new Set(['id', 'kind', 'label', 'layout', 'assumed']);

/** The object that lists what is assumed at a path of the file; undefined where none does. */
function ownerOf(path: Path): Path | undefined {
  if (path[0] === 'suspension') return path.slice(0, 1);
  return path[0] === 'parts' && path.length > 1 ? path.slice(0, 2) : undefined;
}

const covers = (one: Path, other: Path): boolean =>
  one.length <= other.length && one.every((step, i) => step === other[i]);

/** What an owner lists, as paths that begin there; what cannot be read as one is left out. */
function listedBy(source: unknown, owner: Path): Path[] {
  const texts = valueAt(source, [...owner, 'assumed']);
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

/** Whether a file lists the value at a path, or any under it, as assumed. */
export function isListedAssumed(source: unknown, path: Path): boolean {
  const owner = ownerOf(path);
  if (owner === undefined) return false;
  const inner = path.slice(owner.length);
  return listedBy(source, owner).some((listed) => covers(listed, inner) || covers(inner, listed));
}

/** Names of what an object or a list holds that could be measured. */
const keysOf = (value: unknown): (string | number)[] =>
  Array.isArray(value)
    ? [...value.keys()]
    : typeof value === 'object' && value !== null
      ? Object.keys(value).filter((key) => !NOT_MEASURED.has(key))
      : [];

/** The file with all that it holds at a path listed as assumed; `path` may be that of a whole part. */
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

/** The file in which what it holds at a path, and all under it, is what the person has: listed as assumed no more. */
export function withoutAssumed(source: unknown, path: Path): unknown {
  const owner = ownerOf(path);
  if (owner === undefined) return source;
  const inner = path.slice(owner.length);
  const without = (listed: Path): Path[] => {
    if (covers(inner, listed)) return [];
    if (!covers(listed, inner)) return [listed];
    // The others of the group or point that was listed whole.
    return keysOf(valueAt(source, [...owner, ...listed])).flatMap((key) => without([...listed, key]));
  };
  return withList(source, owner, listedBy(source, owner).flatMap(without));
}

/**
 * The file with a value that the person gave at a path, or without the value where it is undefined: assumed there no more.
 * Items behind one that is taken out of a list keep their marks.
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
