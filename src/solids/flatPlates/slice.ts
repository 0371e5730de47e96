import { invert, type Rigid } from '../../math/rigid.ts';
import { type CrossSection, type Manifold, type Modeller, matrix16 } from '../modeller.ts';
import type { Point2 } from '../simplePolygon.ts';

/** The section of a solid with the plane z = 0 of a frame, in that frame's x and y. */
export const sliceIn = (solid: Manifold, solidFromPlane: Rigid): CrossSection =>
  solid.transform(matrix16(invert(solidFromPlane))).slice(0);

/** Larger than any part of a corner, mm. */
const FAR_MM = 1e4;

/** The part of a cross section with y from `fromMm` to `toMm`; without a limit where one is left out. */
export const bandOf = (
  { CrossSection }: Modeller,
  section: CrossSection,
  fromMm = -FAR_MM,
  toMm = FAR_MM,
): CrossSection =>
  section.intersect(CrossSection.square([2 * FAR_MM, toMm - fromMm]).translate([-FAR_MM, fromMm]));

/** A cross section with each place mapped by a motion of the plane that does not turn it over. */
export const movedSection = (
  { CrossSection }: Modeller,
  section: CrossSection,
  map: (at: Point2) => Point2,
): CrossSection =>
  new CrossSection(
    section.toPolygons().map((polygon) => polygon.map(([x, y]): [number, number] => [...map([x, y])])),
    'NonZero',
  );
