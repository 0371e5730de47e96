import type { Entry } from '../../design/schema.ts';
import type { Builder } from '../../solids/build.ts';
import { DimensionError } from '../../solids/dimensionError.ts';
import { hubMountSeats } from '../../solids/fasteners/hubMount.ts';
import { ringProfile, turned } from '../../solids/revolved.ts';
import { axialStack } from '../../solids/wheelFrame.ts';

/** A plain ring between hub or rotor hat and wheel, or between bearing housing and upright. */
export const buildSpacer: Builder<Entry<'spacer'>> = (spacer, context) => {
  const { innerDiameter, outerDiameter, place } = spacer;
  if (innerDiameter >= outerDiameter)
    throw new DimensionError(
      (shown) =>
        `innerDiameter ${shown(innerDiameter)} must be less than outerDiameter ${shown(outerDiameter)}`,
    );
  const { corner, modeller, chordToleranceMm } = context;
  const stack = axialStack(corner);
  const faces = stack.spacerFaces(spacer);
  const profile = ringProfile(
    modeller,
    innerDiameter / 2,
    outerDiameter / 2,
    stack.hubFaceY + faces.inboard,
    stack.hubFaceY + faces.outboard,
  );
  return [
    {
      id: spacer.id,
      kind: 'spacer',
      carrier: place,
      ...turned(profile, context).placed,
      attachments: [],
      seats: place === 'upright' ? hubMountSeats(corner, spacer.id, chordToleranceMm) : [],
    },
  ];
};
