import type { Entry } from '../../design/schema.ts';
import { translation } from '../../math/rigid.ts';
import { distance, midpoint, sub } from '../../math/vec.ts';
import type { Builder } from '../../solids/build.ts';
import { rod } from '../../solids/modeller.ts';
import { placed, worstChordMm } from '../../solids/place.ts';

/** A round tube with square ends, drawn solid: only its outside matters. Throws an Error if both ends are one point. */
export const buildTube: Builder<Entry<'tube'>> = (entry, { modeller, chordToleranceMm }) => {
  const { id, carrier, from, to } = entry;
  if (distance(from, to) === 0) {
    throw new Error(`from and to are the same point (${from.join(', ')}): a tube needs two different ends`);
  }
  const radius = entry.diameter / 2;
  const origin = midpoint(from, to);
  const solid = rod(modeller, sub(from, origin), sub(to, origin), radius, chordToleranceMm);
  const chordMm = worstChordMm([radius], chordToleranceMm);
  return [{ id, kind: 'tube', carrier, attachments: [], ...placed(solid, translation(origin), chordMm) }];
};
