import type { Corner } from '../../design/schema.ts';
import { buildSolids } from '../../solids/catalogue.ts';
import { loadModeller } from '../../solids/modeller.ts';
import { type MeasureBlocks, measureBlocksHere, sweptCells } from './measureBlocks.ts';
import type { PoseRange } from './motionCell.ts';
import { type PlaneCrossing, planeCrossing, type SpacePlane } from './planeCrossing.ts';
import { spunPieces } from './spunProfile.ts';
import { FLOAT32_MM, type SweptSolid, solidOf } from './sweepBody.ts';

/** What the space is computed for. Lengths in mm, steer from -1 to 1. */
export interface SpaceRequest {
  travelMm: readonly [from: number, to: number];
  steer: readonly [from: number, to: number];
  /** Growth of the tyre beyond that of the file, square to its surface. */
  growthMm: number;
  /** Kept free around tyre and wheel. */
  marginMm: number;
  /** Bound on how far the surface is outside the true swept space, errors of the parts' shapes included. */
  withinMm: number;
  planes: readonly SpacePlane[];
}

/** Default bound on the excess, mm: less than half a minute for a corner of 300 mm of travel on two cores. */
export const WITHIN_MM = 12;

/** The space to stay out of. */
export interface SweptSpace {
  request: SpaceRequest;
  /** In vehicle axes of the left corner, mm. */
  solid: SweptSolid;
  planes: readonly PlaneCrossing[];
}

/** The range of travel and lock that the file asks for. */
export const wholeRange = ({ suspension }: Corner): Pick<SpaceRequest, 'travelMm' | 'steer'> => ({
  travelMm: [-suspension.travel.droop, suspension.travel.bump],
  steer: [-1, 1],
});

/** The corner has no tyre or wheel, or locks out in the requested range. The message says what to do. */
export class SpaceError extends Error {}

/** Chord tolerance of the parts, and error of their profiles, mm: small against any useful bound. */
const CHORD_MM = 0.05;
const PROFILE_MM = 0.2;

/** How the space is computed; by default in the calling thread. */
export interface SpaceOptions {
  measure?: MeasureBlocks;
  signal?: AbortSignal;
  /** Receives the share that is done. */
  onProgress?: (share: number) => void;
}

/**
 * The space that tyre and wheel sweep over a range of travel and steer, with growth and margin: see `blocksAround` and
 * `solidOf`. It is the same however it is measured. Rejects with a SpaceError, with DesignProblems if a part cannot be built,
 * and with the signal's reason when cancelled.
 */
export async function sweptSpace(
  corner: Corner,
  request: SpaceRequest,
  { measure = measureBlocksHere, signal, onProgress }: SpaceOptions = {},
): Promise<SweptSpace> {
  const solids = (await buildSolids(corner, CHORD_MM)).filter(
    ({ kind }) => kind === 'wheel' || kind === 'tyre',
  );
  if (solids.length === 0)
    throw new SpaceError('the corner has no tyre and no wheel: add a part of kind "wheel" or "tyre"');
  const modeller = await loadModeller();
  const shapes = solids.map((solid) =>
    spunPieces(solid, corner.suspension, modeller, {
      toleranceMm: PROFILE_MM,
      growthMm: request.marginMm + FLOAT32_MM + (solid.kind === 'tyre' ? request.growthMm : 0),
    }),
  );
  modeller.release();
  const pieces = shapes.flatMap((shape) => shape.pieces);
  const errorMm = Math.max(...shapes.map((shape) => shape.errorMm));
  const input = { corner, ranges: rangesOf(request), pieces, withinMm: request.withinMm - errorMm };
  const swept = sweptCells(input);
  if (!('blocks' in swept)) throw locksOut(swept);
  const { cells, blocks } = swept;
  const total = blocks.blocks.length;
  const measured = await measure({ input, blocks, signal, onDone: (done) => onProgress?.(done / total) });
  return {
    request,
    solid: solidOf(blocks, measured),
    planes: request.planes.map((plane) => planeCrossing(plane, pieces, cells, errorMm)),
  };
}

/** The mechanism locks out near a pose of the requested range. */
const locksOut = ({ travelMm, steer }: PoseRange): SpaceError =>
  new SpaceError(
    `the mechanism locks out near travel ${travelMm.toFixed(1)} mm, steer ${steer.toFixed(2)}: give a smaller range of travel or steer`,
  );

/** The requested range, divided at straight ahead, where the steering may have two ratios. */
function rangesOf({ travelMm: [low, high], steer: [from, to] }: SpaceRequest): PoseRange[] {
  const sides =
    from < 0 && to > 0
      ? [
          [from, 0],
          [0, to],
        ]
      : [[from, to]];
  return sides.map(([a, b]) => ({
    travelMm: (low + high) / 2,
    travelHalfMm: (high - low) / 2,
    steer: (a + b) / 2,
    steerHalf: (b - a) / 2,
  }));
}
