import type { Entry } from '../../design/schema.ts';
import { translation } from '../../math/rigid.ts';
import { distance, midpoint, normalize, scale, sub } from '../../math/vec.ts';
import type { Builder } from '../../solids/build.ts';
import { tieRodOf } from '../../solids/jointPlace.ts';
import { rod } from '../../solids/modeller.ts';
import { placed, worstChordMm } from '../../solids/place.ts';

/** The tie rod's tube, with `endGap` left for the rod end at each joint. Throws an Error if the two gaps leave no tube. */
export const buildTieRod: Builder<Entry<'tieRod'>> = (entry, { corner, modeller, chordToleranceMm }) => {
  const { hardpoints } = corner.suspension;
  const ends = tieRodOf(corner);
  const [inner, outer] = [hardpoints[ends.inner], hardpoints[ends.outer]];
  const span = distance(inner, outer);
  if (!(span > 2 * entry.endGap)) {
    throw new Error(
      `endGap ${entry.endGap} mm at both ends leaves no tube in the ${span.toFixed(1)} mm between ` +
        `${ends.inner} and ${ends.outer}: it must be less than half of that`,
    );
  }
  const radius = entry.tubeDiameter / 2;
  const origin = midpoint(inner, outer);
  const halfTube = scale(normalize(sub(outer, inner)), span / 2 - entry.endGap);
  const solid = rod(modeller, scale(halfTube, -1), halfTube, radius, chordToleranceMm);
  return [
    {
      id: entry.id,
      kind: 'tieRod',
      carrier: ends.carrier,
      attachments: [
        { name: ends.inner, at: inner },
        { name: ends.outer, at: outer },
      ],
      ...placed(solid, translation(origin), worstChordMm([radius], chordToleranceMm)),
    },
  ];
};
