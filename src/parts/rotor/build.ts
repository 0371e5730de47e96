import type { Entry } from '../../design/schema.ts';
import type { BuildContext, Builder } from '../../solids/build.ts';
import { DimensionError } from '../../solids/dimensionError.ts';
import { clampedFaces, depthAxis } from '../../solids/fasteners/seatZones.ts';
import { ringProfile, turned } from '../../solids/revolved.ts';
import type { Seat } from '../../solids/solid.ts';
import { axialStack, entries } from '../../solids/wheelFrame.ts';

/**
 * A brake rotor: friction ring and hat, with the hat's wall as thick as its face. If the friction ring's inside is wider
 * than the hat, the neck between them is drawn as thick as the ring, since its place is not measured; the solid is too
 * large there. Throws an Error if dimensions contradict.
 */
export const buildRotor: Builder<Entry<'rotor'>> = (rotor, context) => {
  checkRotor(rotor);
  const { corner, modeller } = context;
  const stack = axialStack(corner);
  const faces = stack.rotorFaces(rotor);
  const [inboard, outboard, hatOuter] = [faces.inboard, faces.outboard, faces.hatOuter].map(
    (depth) => stack.hubFaceY + depth,
  );
  const hat = rotor.hatDiameter / 2;
  const hatInside = Math.max(rotor.centreBore / 2, hat - rotor.hatThickness);
  const ringInside = Math.min(hatInside, rotor.innerDiameter === undefined ? hat : rotor.innerDiameter / 2);
  const profile = modeller.CrossSection.union([
    ringProfile(modeller, ringInside, rotor.diameter / 2, inboard, outboard),
    ringProfile(modeller, hatInside, hat, inboard, hatOuter),
    ringProfile(modeller, rotor.centreBore / 2, hat, hatOuter - rotor.hatThickness, hatOuter),
  ]);
  return [
    {
      id: rotor.id,
      kind: 'rotor',
      carrier: 'wheel',
      ...turned(profile, context).placed,
      attachments: [],
      seats: wheelSeats(rotor, context),
    },
  ];
};

/** Zone of the hat's outer face against the wheel's pad, if no spacer is between them. */
function wheelSeats(rotor: Entry<'rotor'>, { corner, chordToleranceMm }: BuildContext): Seat[] {
  const stack = axialStack(corner);
  if (rotor.mount !== 'overStuds' || stack.wheelFaceDepth !== rotor.hatThickness) return [];
  return entries(corner, 'wheel').map(({ id, padDiameter }) => ({
    solidId: id,
    zones: [
      clampedFaces(
        depthAxis(corner),
        rotor.hatThickness,
        Math.min(rotor.hatDiameter, padDiameter) / 2,
        chordToleranceMm,
        'hat clamped against the wheel',
      ),
    ],
  }));
}

function checkRotor({
  diameter,
  thickness,
  innerDiameter,
  hatDiameter,
  hatThickness,
  height,
  centreBore,
}: Entry<'rotor'>) {
  if (hatDiameter >= diameter)
    throw new DimensionError(
      (shown) => `hatDiameter ${shown(hatDiameter)} must be less than diameter ${shown(diameter)}`,
    );
  if (innerDiameter !== undefined && innerDiameter >= diameter)
    throw new DimensionError(
      (shown) => `innerDiameter ${shown(innerDiameter)} must be less than diameter ${shown(diameter)}`,
    );
  if (centreBore >= hatDiameter)
    throw new DimensionError(
      (shown) => `centreBore ${shown(centreBore)} must be less than hatDiameter ${shown(hatDiameter)}`,
    );
  if (height < Math.max(thickness, hatThickness))
    throw new DimensionError(
      (shown) =>
        `height ${shown(height)}, from the hat's outer face to the inboard friction face, cannot be less than ` +
        `thickness ${shown(thickness)} or hatThickness ${shown(hatThickness)}`,
    );
}
