import { rimDiameterMm } from '../rimSize.ts';
import {
  type ClampedStack,
  type Dimension,
  dimensionOf,
  dimensionText,
  hubStackCheck,
  ROUNDING_MM,
  requireLimit,
  stackCheck,
} from './clampedStack.ts';
import type { Check } from './report.ts';

/**
 * Checks that the hub's pilot fits through the bores of rotor, wheel spacers and wheel, as far as `pilotLength` reaches. A
 * bore that the pilot does not reach may be smaller, and a rotor behind the flange is not on the pilot.
 */
export const pilotInBores: Check = hubStackCheck((stack, report) => {
  const { depths, hub, rotors, wheelSpacers, wheel } = stack;
  const { pilotDiameter, pilotLength } = hub.entry;
  const why = `the pilot goes through it (${dimensionText(stack, dimensionOf(hub, 'pilotDiameter'))})`;
  const requireFit = (bore: Dimension, faceDepthMm: number) => {
    if (pilotLength > faceDepthMm + ROUNDING_MM)
      requireLimit(stack, report, bore, 'at least', pilotDiameter, why);
  };
  for (const rotor of rotors)
    if (rotor.entry.mount === 'overStuds') requireFit(dimensionOf(rotor, 'centreBore'), 0);
  for (const spacer of wheelSpacers)
    requireFit(dimensionOf(spacer, 'innerDiameter'), depths.spacerFaces(spacer.entry).inboard);
  if (wheel !== undefined) requireFit(dimensionOf(wheel, 'centreBore'), depths.wheelFaceDepth);
});

/**
 * Checks that the hub's flange fits inside the hat of a rotor over the studs, if the hat's wall (as thick as its face) or
 * the friction ring reaches over the flange. A rotor behind the flange is entirely inboard of it.
 */
export const flangeInHat: Check = hubStackCheck((stack, report) => {
  const { depths, hub, rotors } = stack;
  const flange = dimensionOf(hub, 'flangeDiameter');
  for (const part of rotors) {
    const { mount, height, hatDiameter, hatThickness, centreBore, innerDiameter } = part.entry;
    if (mount !== 'overStuds' || height <= hatThickness + ROUNDING_MM) continue;
    const wallInsideMm = Math.max(centreBore, hatDiameter - 2 * hatThickness);
    const ringReaches = depths.rotorFaces(part.entry).outboard > ROUNDING_MM - hub.entry.flangeThickness;
    if (ringReaches && innerDiameter !== undefined && innerDiameter < wallInsideMm) {
      const ring = dimensionText(stack, { part, field: 'innerDiameter', mm: innerDiameter });
      const why = `the flange turns inside the friction ring (${ring})`;
      requireLimit(stack, report, flange, 'less than', innerDiameter, why);
      continue;
    }
    const why =
      `the flange turns inside the hat, whose wall is as thick as hatThickness ` +
      `(${dimensionText(stack, dimensionOf(part, 'hatDiameter'))}, ${dimensionText(stack, dimensionOf(part, 'hatThickness'))})`;
    requireLimit(stack, report, flange, 'less than', wallInsideMm, why);
  }
});

/** Outer diameter of a part clamped under the wheel, and the depth of its outboard face. */
interface Disc extends Dimension {
  what: string;
  faceDepthMm: number;
}

function discsUnderWheel({ depths, hub, rotors, wheelSpacers }: ClampedStack): Disc[] {
  return [
    ...(hub === undefined ? [] : [{ ...dimensionOf(hub, 'flangeDiameter'), what: 'flange', faceDepthMm: 0 }]),
    ...rotors.map((rotor) => ({
      ...dimensionOf(rotor, 'hatDiameter'),
      what: 'hat',
      faceDepthMm: depths.rotorFaces(rotor.entry).hatOuter,
    })),
    ...wheelSpacers.map((spacer) => ({
      ...dimensionOf(spacer, 'outerDiameter'),
      what: 'spacer',
      faceDepthMm: depths.spacerFaces(spacer.entry).outboard,
    })),
  ];
}

/**
 * Checks that spokes inboard of the wheel's mounting face clear the hub's flange, hats and wheel spacers that are wider than
 * the wheel's pad. The spokes' inboard surface is straight from the edge of the pad to `spokeDepth` at the bead seat.
 */
export const spokesClearStack: Check = stackCheck((stack, report) => {
  if (stack.wheel === undefined) return;
  const { padDiameter, diameterCode } = stack.wheel.entry;
  const run = rimDiameterMm(diameterCode) - padDiameter;
  const spokes = dimensionOf(stack.wheel, 'spokeDepth');
  for (const disc of discsUnderWheel(stack)) {
    if (disc.mm <= padDiameter || run <= 0) continue;
    const least = ((disc.faceDepthMm - stack.depths.wheelFaceDepth) * run) / (disc.mm - padDiameter);
    const why = `the ${disc.what} is wider than the wheel's pad (${dimensionText(stack, disc)})`;
    requireLimit(stack, report, spokes, 'at least', least, why);
  }
});

/**
 * Checks that the hub's flange, hats over the studs and wheel spacers are smaller than the narrowest inside of the barrel.
 * Conservative: the barrel counts as this narrow at every depth.
 */
export const stackInsideBarrel: Check = stackCheck((stack, report) => {
  if (stack.wheel === undefined) return;
  const { diameterCode, dropDepth, wall, innerBarrel } = stack.wheel.entry;
  const insideMm =
    2 *
    Math.min(
      rimDiameterMm(diameterCode) / 2 - dropDepth - wall,
      ...(innerBarrel ?? []).map(({ radius }) => radius),
    );
  for (const disc of discsUnderWheel(stack)) {
    // The clearance of a hat behind the flange to the barrel is measured.
    if (disc.faceDepthMm < 0) continue;
    const why = `it is inside the barrel of "${stack.wheel.entry.id}", ${stack.lengthText(insideMm)} at the narrowest`;
    requireLimit(stack, report, disc, 'less than', insideMm, why);
  }
});

/**
 * Checks that the spigot of the bearing housing fits through upright spacers and the upright's bore, as far as
 * `spigotLength` reaches. A bore that the spigot does not reach may be smaller.
 */
export const spigotInBores: Check = hubStackCheck((stack, report) => {
  const { depths, hub, uprightSpacers, upright } = stack;
  const { spigotDiameter, spigotLength } = hub.entry;
  const spigot = dimensionText(stack, dimensionOf(hub, 'spigotDiameter'));
  const requireFit = (bore: Dimension, faceDepthMm: number) => {
    if (spigotLength <= depths.housingFaceDepth - faceDepthMm + ROUNDING_MM) return;
    const why = `the spigot of the bearing housing goes through it (${spigot})`;
    requireLimit(stack, report, bore, 'at least', spigotDiameter, why);
  };
  for (const spacer of uprightSpacers)
    requireFit(dimensionOf(spacer, 'innerDiameter'), depths.spacerFaces(spacer.entry).outboard);
  if (upright !== undefined)
    requireFit(
      { part: upright, field: 'hubMount.bore', mm: upright.entry.hubMount.bore },
      depths.uprightFaceDepth,
    );
});
