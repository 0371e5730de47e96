import type { Corner, Entry } from '../../design/schema.ts';
import { type FastenerBody, type FastenerName, fastenerBodies } from '../../solids/fastenerBodies.ts';
import type { Block, BlockedWay, FindBlocks } from './blocked.ts';

/** Directions of a handle that are tried all round, degrees apart: a third of the usual swing. No source. */
const APART_DEG = 10;
export const DIRECTIONS = 360 / APART_DEG;

/** How much of what is in a way counts first: what is there already; then what comes later. */
export type CountPresent = (way: Pick<BlockedWay, 'body' | 'blocks'>) => number;

/** Whether a wrench turns bolts whose file does not say from where. */
export const comesFromAnywhere = ({ tool, handleDeg }: Entry<'bolts'>): boolean =>
  tool !== 'socket' && handleDeg === undefined;

export interface FreeHandleOptions {
  chordToleranceMm: number;
  countPresent: CountPresent;
  /** Whether a part has to be there before a set of bolts, in any order. */
  isBefore: (partId: string, boltsId: string) => boolean;
}

/**
 * A wrench may come from wherever there is room, unless the file says from where: every blocked one is turned all round, and
 * the direction with the least in its way is kept, beside the others that have something else in theirs. Ways in which nothing
 * is stay as they are. A window narrower than the directions are apart, beside the swing itself, is not found.
 */
export async function withFreeHandles(
  corner: Corner,
  ways: readonly BlockedWay[],
  seated: readonly FastenerBody[],
  find: FindBlocks,
  { chordToleranceMm, countPresent, isBefore }: FreeHandleOptions,
): Promise<BlockedWay[]> {
  const free = new Set(
    corner.parts.flatMap((entry) => (entry.kind === 'bolts' && comesFromAnywhere(entry) ? [entry.id] : [])),
  );
  const tried = new Map<string, BlockedWay[]>();
  for (const way of ways)
    if (way.body.stage === 'tool' && free.has(way.body.boltsId) && way.blocks.length > 0)
      tried.set(keyOf(way.body), [{ ...way, handleDeg: 0 }]);
  const isTried = (body: FastenerName) => body.stage === 'tool' && tried.has(keyOf(body));
  const heads = find(
    await fastenerBodies(withHandles(corner, free, NO_HANDLE), chordToleranceMm, isTried),
    seated,
  );
  const stuck = new Map(
    heads
      .filter(({ body, blocks }) => blocks.some(({ partId }) => isBefore(partId, body.boltsId)))
      .map((way) => [keyOf(way.body), { ...way, directions: DIRECTIONS }]),
  );
  for (const key of stuck.keys()) tried.delete(key);
  for (let handleDeg = APART_DEG; handleDeg < 360; handleDeg += APART_DEG) {
    const blocked = new Set(
      [...tried].filter(([, found]) => found.every(({ blocks }) => blocks.length > 0)).map(([key]) => key),
    );
    if (blocked.size === 0) break;
    const again = await fastenerBodies(
      withHandles(corner, free, { handleDeg }),
      chordToleranceMm,
      (body) => body.stage === 'tool' && blocked.has(keyOf(body)),
    );
    for (const way of find(again, seated)) tried.get(keyOf(way.body))?.push({ ...way, handleDeg });
  }
  return ways.map((way) => {
    const found = way.body.stage === 'tool' ? tried.get(keyOf(way.body)) : undefined;
    if (found !== undefined) return leastBlocked(found, countPresent);
    return (way.body.stage === 'tool' ? stuck.get(keyOf(way.body)) : undefined) ?? way;
  });
}

/** Of the directions of one wrench the one with the least in its way, and those that ask for something else. */
function leastBlocked(found: readonly BlockedWay[], countPresent: CountPresent): BlockedWay {
  const ranked = found.toSorted(
    (a, b) => countPresent(a) - countPresent(b) || a.blocks.length - b.blocks.length,
  );
  const [least] = ranked;
  const kept: BlockedWay[] = [];
  for (const way of found.toSorted((a, b) => a.blocks.length - b.blocks.length))
    if (way !== least && ![least, ...kept].some((other) => isAmong(other.blocks, way.blocks))) kept.push(way);
  const others = kept.map(({ handleDeg = 0, blocks }) => ({ handleDeg, blocks }));
  return { ...least, directions: DIRECTIONS, others };
}

const isAmong = (some: readonly Block[], all: readonly Block[]): boolean =>
  some.every(({ partId }) => all.some((other) => other.partId === partId));

const keyOf = ({ boltsId, index, end }: FastenerName): string => `${boltsId} ${index} ${end}`;

/** A handle that lies within the wrench's head. */
const NO_HANDLE = { handleDeg: 0, toolLength: 1, handleWidth: 1, swingDeg: 1 };

const withHandles = (corner: Corner, ids: ReadonlySet<string>, handle: Partial<Entry<'bolts'>>): Corner => ({
  ...corner,
  parts: corner.parts.map((entry) =>
    entry.kind === 'bolts' && ids.has(entry.id) ? { ...entry, ...handle } : entry,
  ),
});
