import type { Carrier, Corner } from '../../design/schema.ts';
import { atHub } from './atHub.ts';
import { atJoints } from './atJoints.ts';
import { fastened } from './fastened.ts';
import type { Intended, SolidRef } from './intendedContact.ts';

/** Carriers with several separate parts; on every other carrier, all parts form one welded member. */
const OF_MANY_PARTS: readonly Carrier[] = ['upright', 'wheel'];

/**
 * Every intended contact between two solids of a corner, from the corner's dimensions alone. Does not read the zones,
 * attachments and seats of the solids, because the audit checks those. Throws what the dimensions of a set of bolts
 * throw.
 */
export function intendedBetween(corner: Corner, a: SolidRef, b: SolidRef): Intended[] {
  const kinds = [a, b].map(({ partIndex }) => corner.parts[partIndex].kind);
  const isDrawnByUser = [a, b].some(({ partIndex }) => 'carrier' in corner.parts[partIndex]);
  if (isDrawnByUser)
    return a.carrier === b.carrier && !OF_MANY_PARTS.includes(a.carrier)
      ? [{ what: 'one welded member', region: { shape: 'all' }, carrier: a.carrier }]
      : [];
  if (kinds.includes('joint') || kinds.includes('damper')) return atJoints(corner, a, b);
  return kinds.includes('bolts') || kinds.includes('caliper') ? fastened(corner, a, b) : atHub(corner, a, b);
}
