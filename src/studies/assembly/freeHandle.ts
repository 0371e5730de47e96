import type { Corner } from '../../design/schema.ts';
import { type FastenerBody, fastenerBodies } from '../../solids/fastenerBodies.ts';
import type { BlockedWay, FindBlocks } from './blocked.ts';

/** Directions of a handle that are tried all round, degrees apart: a third of the usual swing. No source. */
const APART_DEG = 10;
export const DIRECTIONS = 360 / APART_DEG;

/** How much of what is in a way counts first: what is there already; then what comes later. */
export type CountPresent = (way: BlockedWay) => number;

/**
 * A wrench may come from wherever there is room, unless the file says from where: every blocked one is turned all round, and
 * the direction with the least in its way is kept. Ways in which nothing is stay as they are. A window narrower than the
 * directions are apart, beside the swing itself, is not found.
 */
export async function withFreeHandles(
  corner: Corner,
  ways: readonly BlockedWay[],
  seated: readonly FastenerBody[],
  find: FindBlocks,
  { chordToleranceMm, countPresent }: { chordToleranceMm: number; countPresent: CountPresent },
): Promise<BlockedWay[]> {
  const free = new Set(
    corner.parts.flatMap((entry) =>
      entry.kind === 'bolts' && entry.tool !== 'socket' && entry.handleDeg === undefined ? [entry.id] : [],
    ),
  );
  const best = new Map<string, BlockedWay>();
  const turnable = ways.filter(
    ({ body, blocks }) => body.stage === 'tool' && free.has(body.boltsId) && blocks.length > 0,
  );
  for (const way of turnable) best.set(keyOf(way.body), { ...way, directions: DIRECTIONS });
  const open = () => new Set([...best].filter(([, way]) => way.blocks.length > 0).map(([key]) => key));
  for (let deg = APART_DEG; deg < 360 && open().size > 0; deg += APART_DEG) {
    const left = open();
    const turned = await fastenerBodies(withHandles(corner, free, deg), chordToleranceMm);
    for (const way of find(
      turned.filter((body) => body.stage === 'tool' && left.has(keyOf(body))),
      seated,
    )) {
      const key = keyOf(way.body);
      const before = best.get(key) as BlockedWay;
      const [now, then] = [countPresent(way), countPresent(before)];
      if (now < then || (now === then && way.blocks.length < before.blocks.length))
        best.set(key, { ...way, directions: DIRECTIONS });
    }
  }
  return ways.map((way) => (way.body.stage === 'tool' ? (best.get(keyOf(way.body)) ?? way) : way));
}

const keyOf = ({ boltsId, index, end }: FastenerBody): string => `${boltsId} ${index} ${end}`;

const withHandles = (corner: Corner, ids: ReadonlySet<string>, handleDeg: number): Corner => ({
  ...corner,
  parts: corner.parts.map((entry) =>
    entry.kind === 'bolts' && ids.has(entry.id) ? { ...entry, handleDeg } : entry,
  ),
});
