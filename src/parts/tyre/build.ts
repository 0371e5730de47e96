import type { Entry } from '../../design/schema.ts';
import { type TyreDimensions, tyreDimensions } from '../../design/tyreSize.ts';
import type { Builder } from '../../solids/build.ts';
import { DimensionError } from '../../solids/dimensionError.ts';
import { outline, turned } from '../../solids/revolved.ts';
import { leastTreadMm, type TyreShape, tyreOutline, tyreShape } from '../../solids/tyreProfile.ts';
import { axialStack, entries } from '../../solids/wheelFrame.ts';

/**
 * Factor on the chord tolerance for tyres: real tyres differ by millimetres, and a finer mesh of this large doubly curved
 * surface would have most of the corner's triangles.
 */
const COARSENESS = 4;

/**
 * A tyre on the corner's wheel, in the rim's centre plane: the solid ring between its outside (see `tyreOutline`) and the
 * bead seats. Overall diameter and section width are those measured, else those of the designation. Throws an Error if the
 * tyre does not fit the rim, or its dimensions contradict.
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
