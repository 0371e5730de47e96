import type { Entry } from '../design/schema.ts';
import { type TyreDimensions, tyreDimensions } from '../design/tyreSize.ts';
import type { Builder } from './build.ts';
import { DimensionError } from './dimensionError.ts';
import { outline, turned } from './revolved.ts';
import { leastTreadMm, type TyreShape, tyreOutline, tyreShape } from './tyreProfile.ts';
import { axialStack, entries } from './wheelFrame.ts';

/**
 * A tyre is meshed to this many times the chord tolerance: its own shape varies by millimetres from one to the next,
 * and a finer mesh of so large a double curve would make it most of the corner's triangles.
 */
const COARSENESS = 4;

/**
 * A tyre on the corner's wheel, in the rim's centre plane: the solid ring between its outside (see `tyreOutline`) and
 * the bead seats. Its designation gives overall diameter and section width where they were not measured. Throws an
 * Error where the tyre does not go with the rim, or its dimensions contradict.
 */
export const buildTyre: Builder<Entry<'tyre'>> = (tyre, context) => {
  const { corner, modeller, chordToleranceMm } = context;
  const wheel = entries(corner, 'wheel')[0];
  if (wheel === undefined) throw new Error('a tyre is placed on its wheel: add a part of kind "wheel"');
  const size = sizeOf(tyre);
  if (size.rimCode !== wheel.diameterCode)
    throw new Error(
      `designation "${tyre.designation}" is for a rim of ${size.rimCode} in, but the wheel's diameterCode is ` +
        `${wheel.diameterCode}`,
    );
  const shape = tyreShape(tyre, size, wheel);
  checkShape(shape);
  const meshed = { ...context, chordToleranceMm: COARSENESS * chordToleranceMm };
  const profileErrorMm = meshed.chordToleranceMm / 2;
  const profile = outline(modeller, tyreOutline(shape, profileErrorMm));
  const centreY = axialStack(corner).rimCentreY(wheel);
  return [
    {
      id: tyre.id,
      kind: 'tyre',
      carrier: 'wheel',
      ...turned(profile.translate([0, centreY]), meshed, profileErrorMm).placed,
      attachments: [],
    },
  ];
};

function sizeOf(tyre: Entry<'tyre'>): TyreDimensions {
  try {
    return tyreDimensions(tyre);
  } catch (error) {
    throw new Error(`designation "${tyre.designation}" ${(error as Error).message}`);
  }
}

function checkShape(shape: TyreShape): void {
  const { outerRadiusMm, heelRadiusMm, flangeHeightMm, treadWidthMm, sectionWidthMm, rimWidthMm } = shape;
  if ((outerRadiusMm - heelRadiusMm) / 2 <= flangeHeightMm)
    throw new DimensionError(
      (shown) =>
        `an overall diameter of ${shown(2 * outerRadiusMm)} leaves no sidewall above the rim's flangeHeight ` +
        `${shown(flangeHeightMm)}: on a rim of diameter ${shown(2 * heelRadiusMm)} it must be more than ` +
        shown(2 * heelRadiusMm + 4 * flangeHeightMm),
    );
  if (treadWidthMm > sectionWidthMm)
    throw new DimensionError(
      (shown) =>
        `treadWidth ${shown(treadWidthMm)} cannot be more than the section width ${shown(sectionWidthMm)}`,
    );
  const least = leastTreadMm(outerRadiusMm, heelRadiusMm, Math.max(sectionWidthMm, rimWidthMm));
  if (treadWidthMm < least)
    throw new DimensionError(
      (shown) =>
        `treadWidth ${shown(treadWidthMm)} is too narrow for a sidewall this low: it must be at least ${shown(least)}`,
    );
}
