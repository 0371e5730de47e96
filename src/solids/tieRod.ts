import type { Entry } from '../design/schema.ts';
import { translation } from '../math/rigid.ts';
import { distance, midpoint, normalize, scale, sub } from '../math/vec.ts';
import type { Builder } from './build.ts';
import { rod } from './modeller.ts';
import { placed, worstChordMm } from './place.ts';

/**
 * The tie rod's tube between its joints, bare length for the rod ends left at both ends. Throws an Error where the two gaps leave no tube.
 */
export const buildTieRod: Builder<Entry<'tieRod'>> = (entry, { corner, modeller, chordToleranceMm }) => {
  const { tieRodInner, tieRodOuter } = corner.suspension.hardpoints;
  const span = distance(tieRodInner, tieRodOuter);
  if (!(span > 2 * entry.endGap)) {
    throw new Error(
      `endGap ${entry.endGap} mm at both ends leaves nothing of the ${span.toFixed(1)} mm between ` +
        'tieRodInner and tieRodOuter: it must be less than half of that',
    );
  }
  const radius = entry.tubeDiameter / 2;
  const origin = midpoint(tieRodInner, tieRodOuter);
  const halfTube = scale(normalize(sub(tieRodOuter, tieRodInner)), span / 2 - entry.endGap);
  const solid = rod(modeller, scale(halfTube, -1), halfTube, radius, chordToleranceMm);
  return [
    {
      id: entry.id,
      kind: 'tieRod',
      carrier: 'tieRod',
      attachments: [
        { name: 'tieRodInner', at: tieRodInner },
        { name: 'tieRodOuter', at: tieRodOuter },
      ],
      ...placed(solid, translation(origin), worstChordMm([radius], chordToleranceMm)),
    },
  ];
};
