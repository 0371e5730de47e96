import type { Corner } from '../../design/schema.ts';
import { yieldToOthers } from '../../executors/yieldToOthers.ts';
import { invert } from '../../math/rigid.ts';
import { PoseSpan } from '../../proof/poseSpan.ts';
import { vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';
import { mechanismOf } from '../../sweep/setUp.ts';
import { divideIntoCells, type MotionCell, type PoseRange } from './motionCell.ts';
import { SpunBody, type SpunPiece } from './spunBody.ts';
import type { MeasuredBlock, SurfaceBlocks } from './surfaceBlocks.ts';
import { blocksAround } from './sweepBody.ts';

/** The body to sweep, its motion and the bound on the excess: all that the blocks depend on, as plain data. */
export interface SweptSpaceInput {
  corner: Corner;
  ranges: readonly PoseRange[];
  pieces: readonly SpunPiece[];
  withinMm: number;
}

/** Blocks to measure: made from `input`. */
export interface BlocksWork {
  input: SweptSpaceInput;
  blocks: SurfaceBlocks;
  signal?: AbortSignal | undefined;
  /** Called after each block, with the number of blocks done. */
  onDone: (done: number) => void;
}

/** Measures all blocks, in their order. Rejects with the signal's reason when cancelled. */
export type MeasureBlocks = (work: BlocksWork) => Promise<MeasuredBlock[]>;

/** In the calling thread. */
export const measureBlocksHere: MeasureBlocks = async ({ blocks, signal, onDone }) => {
  const measured: MeasuredBlock[] = [];
  for (let index = 0; index < blocks.blocks.length; index++) {
    signal?.throwIfAborted();
    measured.push(blocks.measure(index));
    onDone(measured.length);
    await yieldToOthers();
  }
  return measured;
};

/** Cells of the motion, and blocks of the grid. */
export interface SweptCells {
  cells: readonly MotionCell[];
  blocks: SurfaceBlocks;
}

/** Cells and blocks of a space: the same on any thread. A range instead if the mechanism locks out in it. */
export function sweptCells({ corner, ranges, pieces, withinMm }: SweptSpaceInput): SweptCells | PoseRange {
  const body = new SpunBody(pieces);
  const mechanism = mechanismOf(corner);
  const { cells, notEnclosed } = divideIntoCells(ranges, {
    enclose: (range) => {
      const span = new PoseSpan(mechanism, range);
      return span.carriers && span.motion('wheel', 'chassis').forward;
    },
    bodyFromCarrier: invert(vehicleFromWheelAxis(corner.suspension)),
    body: { centre: [0, 0, 0], radiusMm: body.reachMm },
  });
  return notEnclosed ?? { cells, blocks: blocksAround(body, cells, withinMm) };
}
