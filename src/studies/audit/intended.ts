import type { Carrier, Corner } from '../../design/schema.ts';
import type { Solid } from '../../solids/solid.ts';
import { atHub } from './atHub.ts';
import { atJoints } from './atJoints.ts';
import { fastened } from './fastened.ts';
import type { Region } from './region.ts';

/** A contact between two solids that is intended. */
export interface Intended {
  /** In words: "bolt in its hole". */
  what: string;
  region: Region;
  /** What the region rides on. */
  carrier: Carrier;
}

/** What identifies a solid to the rules of intended contact. */
export type Named = Pick<Solid, 'id' | 'partIndex' | 'carrier'>;

/** Carriers whose parts stand apart from each other as a rule: everything else on one carrier is one welded member. */
const OF_MANY_PARTS: readonly Carrier[] = ['upright', 'wheel'];

/**
 * Every contact that is intended between two solids of a corner, from the corner's dimensions alone: what a mechanic fits
 * together on purpose. Zones, attachments and seats of the solids are not read, since an audit checks those.
 * Throws what the dimensions of a set of bolts throw.
 */
export function intendedBetween(corner: Corner, a: Named, b: Named): Intended[] {
  const kinds = [a, b].map(({ partIndex }) => corner.parts[partIndex].kind);
  const isDrawnByUser = kinds.some((kind) => kind === 'tube' || kind === 'box' || kind === 'plate');
  if (isDrawnByUser)
    return a.carrier === b.carrier && !OF_MANY_PARTS.includes(a.carrier)
      ? [{ what: 'one welded member', region: { shape: 'all' }, carrier: a.carrier }]
      : [];
  if (kinds.includes('joint') || kinds.includes('damper')) return atJoints(corner, a, b);
  return kinds.includes('bolts') || kinds.includes('caliper') ? fastened(corner, a, b) : atHub(corner, a, b);
}
