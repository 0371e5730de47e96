import { rimDiameterMm } from '../design/rimSize.ts';
import type { Entry } from '../design/schema.ts';
import type { TyreDimensions } from '../design/tyreSize.ts';
import { cos, sin } from '../math/sine.ts';
import type { ProfilePoint } from './revolved.ts';

/** Assumed ratio of tread width to section width. Common practice, no source. */
const TREAD_OF_SECTION = 0.8;

/** Dimensions of a mounted tyre's outside, without growth, and of its rim. */
export interface TyreShape {
  outerRadiusMm: number;
  sectionWidthMm: number;
  treadWidthMm: number;
  /** Radius at the heel of the bead seats, height of the flanges above it, and width between the flanges. */
  heelRadiusMm: number;
  flangeHeightMm: number;
  rimWidthMm: number;
  /** Added everywhere, square to the outside. */
  growthMm: number;
}

/** Shape of a tyre of a size on a wheel. */
export function tyreShape(tyre: Entry<'tyre'>, size: TyreDimensions, wheel: Entry<'wheel'>): TyreShape {
  const { sectionWidthMm } = size;
  const outerRadiusMm = size.overallDiameterMm / 2;
  const heelRadiusMm = rimDiameterMm(wheel.diameterCode) / 2;
  const least = leastTreadMm(outerRadiusMm, heelRadiusMm, Math.max(sectionWidthMm, wheel.width));
  return {
    outerRadiusMm,
    sectionWidthMm,
    treadWidthMm: tyre.treadWidth ?? Math.max(TREAD_OF_SECTION * sectionWidthMm, least),
    heelRadiusMm,
    flangeHeightMm: wheel.flangeHeight,
    rimWidthMm: wheel.width,
    growthMm: tyre.growth,
  };
}

/** Least tread width, mm: with a narrower tread, the arc from the widest place would rise above the tread. */
export const leastTreadMm = (outerRadiusMm: number, heelRadiusMm: number, widthMm: number): number =>
  widthMm - (outerRadiusMm - heelRadiusMm);

/** Least bulge of a sidewall, mm, so that its arcs have a finite radius: a fifth of the chord tolerance. */
const LEAST_BULGE_MM = 0.01;

/** Radius, mm, of an arc that starts parallel to the radius and ends `across` nearer the centre plane after `along`. */
const arcRadius = (across: number, along: number): number => (across ** 2 + along ** 2) / (2 * across);

/**
 * The closed outline of a mounted tyre, filled down to a cylinder through the heels of the bead seats, since no part is
 * inside a tyre. y from its centre plane. The tread is flat and the sidewall is widest halfway up the section; from there
 * one arc runs to the tread's edge and one to the top of the flange, both starting square to the axis. A tyre narrower than
 * its rim is drawn as wide as the rim. Growth moves this outside square to itself. The arcs are approximated by straight
 * pieces to within `chordToleranceMm`. The dimensions must have passed the checks of `buildTyre`.
 */
export function tyreOutline(shape: TyreShape, chordToleranceMm: number): ProfilePoint[] {
  const { outerRadiusMm, growthMm, heelRadiusMm } = shape;
  const flangeTop = heelRadiusMm + shape.flangeHeightMm;
  const rim = shape.rimWidthMm / 2;
  const widest = Math.max(shape.sectionWidthMm / 2, rim + LEAST_BULGE_MM);
  const middle = (heelRadiusMm + outerRadiusMm) / 2;
  const tread = Math.min(shape.treadWidthMm / 2, widest - LEAST_BULGE_MM);

  const toTread = outerRadiusMm - middle;
  const upper = arcRadius(widest - tread, toTread);
  const shoulder = Math.asin(Math.min(1, toTread / upper));
  // A sidewall that overhangs the flange by more than it rises above it ends in a quarter circle.
  const toFlange = middle - flangeTop;
  const lower = arcRadius(Math.min(widest - rim, toFlange), toFlange);
  const foot = Math.asin(Math.min(1, toFlange / lower));

  const arc = (centre: ProfilePoint, radiusMm: number, fromRad: number, toRad: number): ProfilePoint[] => {
    const radius = radiusMm + growthMm;
    const step = radius <= chordToleranceMm ? Math.PI / 4 : 2 * Math.acos(1 - chordToleranceMm / radius);
    const pieces = Math.max(1, Math.ceil(Math.abs(toRad - fromRad) / step));
    return Array.from({ length: pieces + 1 }, (_, k) => {
      const angle = fromRad + ((toRad - fromRad) * k) / pieces;
      return [centre[0] + radius * sin(angle), centre[1] + radius * cos(angle)];
    });
  };
  const end = Math.max(heelRadiusMm, flangeTop - growthMm * sin(foot));
  const outboard: ProfilePoint[] = [
    ...(growthMm > 0 ? arc([outerRadiusMm, tread], 0, Math.PI / 2, shoulder) : []),
    ...arc([middle, widest - upper], upper, shoulder, 0),
    ...arc([middle, widest - lower], lower, 0, -foot),
    [end, rim],
    [heelRadiusMm, rim],
  ];
  return [...outboard, ...outboard.map(([radius, y]): ProfilePoint => [radius, -y]).reverse()];
}
