import type { Rigid } from '../math/rigid.ts';
import type { BuiltSolid } from './build.ts';
import { chordErrorMm, type Manifold, type Model, meshOfModel, segmentsFor, takeModel } from './modeller.ts';
import { roundingMm } from './rounding.ts';

/** Largest chord error, mm, of round pieces of these radii, each made with `segmentsFor` its radius. */
export const worstChordMm = (radiiMm: readonly number[], chordToleranceMm: number): number =>
  radiiMm.reduce(
    (worst, radius) => Math.max(worst, chordErrorMm(radius, segmentsFor(radius, chordToleranceMm))),
    0,
  );

/** What a builder knows of a solid once it is in its place. */
export type Placed = Pick<BuiltSolid, 'mesh' | 'shown' | 'volumeMm3' | 'chordErrorMm'>;

/**
 * Moves a modelled solid to its place in the vehicle. `shapeErrorMm`: distance of the model from the true shape; the
 * rounding of the model's coordinates is added to it.
 *
 * The error of a union is that of its worst piece. Round pieces are inscribed, so each true surface point is outside the
 * model or on it, and the way from it to the nearest point of its own piece crosses the model's surface. Cuts are inscribed
 * too, and leave at most the same error of material. So every point of the true body is within the error of the model; the
 * error of a clearance relies on this. In the other direction, the groove of a seam is an exception: the model's edge there
 * is no deeper than the error below each piece, but in an acute groove it is further from the true seam.
 */
export const placed = (solid: Manifold, vehicleFromModel: Rigid, shapeErrorMm: number): Placed =>
  placedModel(takeModel(solid), vehicleFromModel, shapeErrorMm);

/** A model with its distance from the true shape, mm. */
export interface ShapedModel extends Model {
  shapeErrorMm: number;
}

/** As `placed`, for a model that is taken out of the modeller already. */
export const placedModel = (model: Model, vehicleFromModel: Rigid, shapeErrorMm: number): Placed => ({
  mesh: meshOfModel(model, vehicleFromModel),
  volumeMm3: model.volumeMm3,
  shown: undefined,
  chordErrorMm: shapeErrorMm + roundingMm(model.reachMm),
});
