import { rimDiameterMm } from '../../design/rimSize.ts';
import type { Entry } from '../../design/schema.ts';
import { sin } from '../../math/sine.ts';
import type { BuildContext, Builder } from '../../solids/build.ts';
import { DimensionError } from '../../solids/dimensionError.ts';
import { circlePlaces } from '../../solids/fasteners/boltHoles.ts';
import { boltPattern, THROUGH_MM, withBoltsErrorMm } from '../../solids/fasteners/boltPattern.ts';
import { type CrossSection, type Manifold, matrix16, takeMesh } from '../../solids/modeller.ts';
import { outline, revolve, ringProfile, turned } from '../../solids/revolved.ts';
import { barrelProfile, tyreSide } from '../../solids/rimContour.ts';
import { axialStack, vehicleFromWheelAxis, wheelFromClock } from '../../solids/wheelFrame.ts';

/**
 * A wheel: barrel and flanges, centre pad on the mounting face, and the disc from the pad to the barrel, each a body of
 * revolution with straight edges. Spokes and bolt holes are shown; the full disc that they sweep is checked. The first
 * spoke and the first bolt hole are straight above the axis. Throws an Error if dimensions contradict.
 */
export const buildWheel: Builder<Entry<'wheel'>> = (wheel, context) => {
  checkPad(wheel);
  const { corner, modeller } = context;
  const stack = axialStack(corner);
  const centreY = stack.rimCentreY(wheel);
  const faceY = stack.hubFaceY + stack.wheelFaceDepth;
  const barrel = barrelProfile(modeller, wheel, faceY - centreY).translate([0, centreY]);
  const bore = wheel.centreBore / 2;
  const pad = ringProfile(modeller, bore, wheel.padDiameter / 2, faceY, faceY + wheel.padThickness);
  if (pad.intersect(barrel).area() > 0)
    throw new DimensionError(
      (shown) =>
        `padDiameter ${shown(wheel.padDiameter)} reaches into the barrel (drop centre at dropPlace ` +
        `${shown(wheel.dropPlace)}, dropDepth ${shown(wheel.dropDepth)}, wall ${shown(wheel.wall)}): ` +
        'make the pad smaller, or measure innerBarrel',
    );
  const disc = discProfile(wheel, faceY, context).subtract(tyreSide(modeller, wheel).translate([0, centreY]));
  const profile = modeller.CrossSection.union([barrel, pad, disc]).simplify();
  if (profile.decompose().length > 1)
    throw new DimensionError(
      (shown) =>
        `the disc does not meet the barrel: spokeDepth ${shown(wheel.spokeDepth)} with spokeThickness ` +
        `${shown(wheel.spokeThickness)} misses a rim of width ${shown(wheel.width)} whose centre plane is at ` +
        `depth ${shown(centreY - faceY)} from the mounting face; an innerBarrel must also join the flanges`,
    );
  const { body, segments, placed } = turned(profile, context);
  const checked = { id: wheel.id, kind: 'wheel', carrier: 'wheel', ...placed, attachments: [] } as const;
  if (context.measuredOnly) return [checked];

  const spoked =
    wheel.spokes === 0
      ? body()
      : modeller.Manifold.union([
          revolve(barrel.add(pad), segments),
          revolve(disc, segments).intersect(spokeBars(wheel, centreY, context)),
        ]);
  const holes = { places: circlePlaces(wheel.boltCount, wheel.boltCircle, 0), diameterMm: wheel.boltHole };
  const shownBody = spoked.subtract(
    boltPattern(context, holes, faceY - THROUGH_MM, faceY + wheel.padThickness + THROUGH_MM),
  );
  return [
    {
      ...checked,
      shown: takeMesh(shownBody, vehicleFromWheelAxis(corner.suspension)),
      shownErrorMm: withBoltsErrorMm(placed.chordErrorMm, context),
    },
  ];
};

function checkPad(wheel: Entry<'wheel'>): void {
  const { boltCircle, boltHole, boltCount, padDiameter, centreBore } = wheel;
  if (centreBore >= padDiameter)
    throw new DimensionError(
      (shown) =>
        `centreBore ${shown(centreBore)} leaves no pad: it must be less than padDiameter ` +
        shown(padDiameter),
    );
  if (boltCircle + boltHole >= padDiameter)
    throw new DimensionError(
      (shown) =>
        `the bolt holes (boltHole ${shown(boltHole)} on boltCircle ${shown(boltCircle)}) reach the edge of the ` +
        `pad: padDiameter ${shown(padDiameter)} must be more than ${shown(boltCircle + boltHole)}`,
    );
  if (boltCircle - boltHole <= centreBore)
    throw new DimensionError(
      (shown) =>
        `the bolt holes (boltHole ${shown(boltHole)} on boltCircle ${shown(boltCircle)}) reach the centre bore: ` +
        `centreBore ${shown(centreBore)} must be less than ${shown(boltCircle - boltHole)}`,
    );
  if (boltCircle * sin(Math.PI / boltCount) <= boltHole)
    throw new DimensionError(
      (shown) =>
        `${boltCount} bolt holes of ${shown(boltHole)} on a boltCircle of ${shown(boltCircle)} run into each other`,
    );
}

/** Profile of the disc: straight from the pad's edge to `spokeDepth` at the bead seat's radius, ends cut along the axis. */
function discProfile(wheel: Entry<'wheel'>, faceY: number, { modeller }: BuildContext): CrossSection {
  const pad = wheel.padDiameter / 2;
  const heel = rimDiameterMm(wheel.diameterCode) / 2;
  const rimY = faceY + wheel.spokeDepth;
  return outline(modeller, [
    [pad, faceY],
    [heel, rimY],
    [heel, rimY + wheel.spokeThickness],
    [pad, faceY + wheel.padThickness],
  ]);
}

/** One bar for each spoke, from the axis outward, long and tall enough to contain the disc between its sides. */
function spokeBars(wheel: Entry<'wheel'>, centreY: number, { modeller }: BuildContext): Manifold {
  const reach = rimDiameterMm(wheel.diameterCode);
  const bar = modeller.Manifold.cube([wheel.spokeWidth, 2 * reach, reach]).translate([
    -wheel.spokeWidth / 2,
    centreY - reach,
    0,
  ]);
  const bars = Array.from({ length: wheel.spokes }, (_, k) =>
    bar.transform(matrix16(wheelFromClock((360 * k) / wheel.spokes))),
  );
  return modeller.Manifold.union(bars);
}
