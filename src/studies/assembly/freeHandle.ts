import type { Corner, Entry } from '../../design/schema.ts';
import {
  type FastenerBody,
  type FastenerName,
  fastenerBodies,
} from '../../solids/fasteners/fastenerBodies.ts';
import type { Block, BlockedWay, FindBlocks } from './blocked.ts';

/** Angle between the handle directions tried, degrees: a third of the usual swing. No source. */
const STEP_DEG = 10;
const DIRECTIONS = 360 / STEP_DEG;

/**
 * Number of parts in the way that are present at the step; it is compared before the number of all parts in the way.
 */
export type CountPresent = (way: Pick<BlockedWay, 'body' | 'blocks'>) => number;

/** Whether bolts are turned by a wrench without a given direction. */
export const isDirectionFree = ({ tool, handleDeg }: Entry<'bolts'>): boolean =>
  tool !== 'socket' && handleDeg === undefined;

export interface FreeHandleOptions {
  chordToleranceMm: number;
  countPresent: CountPresent;
  /** Whether a part precedes a set of bolts in every order. */
  isBefore: (partId: string, boltsId: string) => boolean;
}

/**
 * Tries other directions for every blocked wrench without a direction in the file. Keeps the direction with the
 * fewest parts in its way, and lists the others that are blocked by other parts. Unblocked paths and tools are
 * unchanged. An opening narrower than the step between directions, in addition to the swing, is not found.
 */
export async function withFreeHandles(
  corner: Corner,
  ways: readonly BlockedWay[],
  seated: readonly FastenerBody[],
  find: FindBlocks,
  { chordToleranceMm, countPresent, isBefore }: FreeHandleOptions,
): Promise<BlockedWay[]> {
  const free = new Set(
    corner.parts.flatMap((entry) => (entry.kind === 'bolts' && isDirectionFree(entry) ? [entry.id] : [])),
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
  for (let handleDeg = STEP_DEG; handleDeg < 360; handleDeg += STEP_DEG) {
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

/**
 * Selects the direction of one wrench with the fewest parts in its way, and the directions that are blocked by other
 * parts.
 */
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

/** A handle that is inside the wrench's head. */
const NO_HANDLE = { handleDeg: 0, toolLength: 1, handleWidth: 1, swingDeg: 1 };

const withHandles = (corner: Corner, ids: ReadonlySet<string>, handle: Partial<Entry<'bolts'>>): Corner => ({
  ...corner,
  parts: corner.parts.map((entry) =>
    entry.kind === 'bolts' && ids.has(entry.id) ? { ...entry, ...handle } : entry,
  ),
});
