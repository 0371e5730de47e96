import { hubMountCircleMm } from '../../design/fasteners/hubMountCircle.ts';
import type { Entry } from '../../design/schema.ts';
import { sin } from '../../math/sine.ts';
import { type BuildContext, type Builder, type BuiltSolid, piece } from '../../solids/build.ts';
import { DimensionError } from '../../solids/dimensionError.ts';
import { circlePlaces, hubMountPlaces } from '../../solids/fasteners/boltHoles.ts';
import { boltPattern, THROUGH_MM, withBoltsErrorMm } from '../../solids/fasteners/boltPattern.ts';
import { hubMountSeats } from '../../solids/fasteners/hubMount.ts';
import { takeMesh } from '../../solids/modeller.ts';
import { outline, ringProfile, turned } from '../../solids/revolved.ts';
import { axialStack, vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';

/**
 * A hub in two solids. `ID` turns with the wheel: flange, pilot, and the ring that the studs sweep. `ID.housing` stays with
 * the upright: the bearing housing from the back of the flange to its mounting face, its mounting flange and the spigot,
 * all without a bore, since the spindle turns in it. Both are shown with studs or bolt holes, the first at `clockingDeg`.
 * Throws an Error if dimensions contradict.
 */
export const buildHub: Builder<Entry<'hub'>> = (hub, context) => {
  checkFlange(hub);
  checkHousing(hub);
  return [piece('turning', hub, context, turningHub), piece('housing', hub, context, bearingHousing)];
};

function turningHub(hub: Entry<'hub'>, context: BuildContext): BuiltSolid {
  const { corner, modeller } = context;
  const { hubFaceY } = axialStack(corner);
  const back = hubFaceY - hub.flangeThickness;
  const flange = outline(modeller, [
    [0, back],
    [hub.flangeDiameter / 2, back],
    [hub.flangeDiameter / 2, hubFaceY],
    [hub.pilotDiameter / 2, hubFaceY],
    [hub.pilotDiameter / 2, hubFaceY + hub.pilotLength],
    [0, hubFaceY + hub.pilotLength],
  ]);
  const common = {
    id: hub.id,
    kind: 'hub',
    carrier: 'wheel',
    attachments: [],
  } as const;
  if (hub.studLength === 0) return { ...common, ...turned(flange, context).placed };
  const studs = ringProfile(
    modeller,
    (hub.boltCircle - hub.studDiameter) / 2,
    (hub.boltCircle + hub.studDiameter) / 2,
    back,
    hubFaceY + hub.studLength,
  );
  const pattern = {
    places: circlePlaces(hub.studCount, hub.boltCircle, hub.clockingDeg),
    diameterMm: hub.studDiameter,
  };
  const shownBody = turned(flange, context)
    .body()
    .add(boltPattern(context, pattern, back, hubFaceY + hub.studLength));
  const { placed } = turned(flange.add(studs), context);
  const mesh = takeMesh(shownBody, vehicleFromWheelAxis(corner.suspension));
  return {
    ...common,
    ...placed,
    shown: mesh,
    // The nuts turn with the hub, so each stud is checked in place beside them.
    unswept: mesh,
    chordErrorMm: withBoltsErrorMm(placed.chordErrorMm, context),
  };
}

function bearingHousing(hub: Entry<'hub'>, context: BuildContext): BuiltSolid {
  const { corner, modeller, chordToleranceMm } = context;
  const { hubFaceY, housingFaceDepth } = axialStack(corner);
  const face = hubFaceY + housingFaceDepth;
  const front = face + hub.mountFlangeThickness;
  const back = hubFaceY - hub.flangeThickness;
  const profile = modeller.CrossSection.union([
    ringProfile(modeller, 0, hub.spigotDiameter / 2, face - hub.spigotLength, front),
    ringProfile(modeller, 0, hub.mountFlangeDiameter / 2, face, front),
    ringProfile(modeller, 0, hub.housingDiameter / 2, face, back),
  ]);
  const { body, placed } = turned(profile, context);
  const housing = {
    id: `${hub.id}.housing`,
    kind: 'bearingHousing',
    carrier: 'upright',
    ...placed,
    attachments: [],
    seats: hubMountSeats(corner, `${hub.id}.housing`, chordToleranceMm),
  } as const;
  if (context.measuredOnly) return housing;
  const whole = body();
  const pattern = { places: hubMountPlaces(hub), diameterMm: hub.mountBoltDiameter };
  // Holes run past the flange's front: if they ended in its face, rounding would leave a thin skin.
  const drilled = boltPattern(context, pattern, face - THROUGH_MM, front + THROUGH_MM);
  const above = ringProfile(modeller, 0, hub.housingDiameter / 2, front, back);
  const holes = back > front ? drilled.subtract(turned(above, context).body()) : drilled;
  const shownBody = whole.subtract(holes);
  return {
    ...housing,
    shown: takeMesh(shownBody, vehicleFromWheelAxis(corner.suspension)),
    shownErrorMm: withBoltsErrorMm(placed.chordErrorMm, context),
  };
}

function checkFlange({
  flangeDiameter,
  pilotDiameter,
  boltCircle,
  studDiameter,
  studCount,
}: Entry<'hub'>): void {
  if (boltCircle + studDiameter > flangeDiameter)
    throw new DimensionError(
      (shown) =>
        `the studs (studDiameter ${shown(studDiameter)} on boltCircle ${shown(boltCircle)}) reach past the edge ` +
        `of the flange: flangeDiameter ${shown(flangeDiameter)} must be at least ${shown(boltCircle + studDiameter)}`,
    );
  if (boltCircle - studDiameter <= pilotDiameter)
    throw new DimensionError(
      (shown) =>
        `the studs (studDiameter ${shown(studDiameter)} on boltCircle ${shown(boltCircle)}) run into the pilot: ` +
        `pilotDiameter ${shown(pilotDiameter)} must be less than ${shown(boltCircle - studDiameter)}`,
    );
  if (boltCircle * sin(Math.PI / studCount) <= studDiameter)
    throw new DimensionError(
      (shown) =>
        `${studCount} studs of ${shown(studDiameter)} on a boltCircle of ${shown(boltCircle)} run into each other`,
    );
}

function checkHousing(hub: Entry<'hub'>): void {
  const { mountDepth, flangeThickness, mountFlangeThickness, mountFlangeDiameter } = hub;
  if (mountDepth < flangeThickness + mountFlangeThickness)
    throw new DimensionError(
      (shown) =>
        `mountDepth ${shown(mountDepth)} leaves no room behind the wheel-mounting face for flangeThickness ` +
        `${shown(flangeThickness)} and mountFlangeThickness ${shown(mountFlangeThickness)}`,
    );
  const circle = hubMountCircleMm(hub);
  const pattern =
    hub.mountRectangle === undefined ? 'on mountBoltCircle' : 'in mountRectangle, on a circle of';
  if (circle + hub.mountBoltDiameter > mountFlangeDiameter)
    throw new DimensionError(
      (shown) =>
        `the mounting bolts (mountBoltDiameter ${shown(hub.mountBoltDiameter)} ${pattern} ` +
        `${shown(circle)}) reach past the edge of the flange: mountFlangeDiameter ` +
        `${shown(mountFlangeDiameter)} must be at least ${shown(circle + hub.mountBoltDiameter)}`,
    );
}
