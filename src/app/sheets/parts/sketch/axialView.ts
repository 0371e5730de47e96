import type { Corner } from '../../../../design/schema.ts';
import { compose, fromAxes, type Rigid, translation } from '../../../../math/rigid.ts';
import { axialStack, vehicleFromWheelAxis } from '../../../../solids/wheelFrame.ts';
import type { SketchView } from './sketch.ts';

/** Frame of the wheel (x forward, y outboard, z up) on its axis at a depth from the hub's mounting face. */
export const wheelAtDepth = (corner: Corner, depthMm: number): Rigid =>
  compose(
    vehicleFromWheelAxis(corner.suspension),
    translation([0, axialStack(corner).hubFaceY + depthMm, 0]),
  );

/** Frame of a view from outboard, the front to the left, in the wheel's frame. */
export const FROM_OUTBOARD = fromAxes([-1, 0, 0], [0, 0, 1], [0, 1, 0], [0, 0, 0]);

/** Frame of a view from inboard, the front to the right, in the wheel's frame: x toward smaller clocking. */
export const FROM_INBOARD = fromAxes([1, 0, 0], [0, 0, 1], [0, -1, 0], [0, 0, 0]);

/** Frame of a cut through the wheel axis, inboard to the right, outward from the axis up, in the wheel's frame. */
export const CUT = fromAxes([0, -1, 0], [0, 0, 1], [-1, 0, 0], [0, 0, 0]);

/** Frame of a section through the wheel axis, outboard up in the sketch, its x up in the vehicle. */
const SECTION = fromAxes([0, 0, 1], [0, 1, 0], [-1, 0, 0], [0, 0, 0]);

/** View of a section through the wheel axis; its y = 0 is at a depth from the hub's mounting face. */
export const axialView = (corner: Corner, depthMm: number): SketchView => ({
  at: [0, 0],
  vehicleFromView: compose(wheelAtDepth(corner, depthMm), SECTION),
});

/** The same, with the part's solids cut. */
export const axialCut = (corner: Corner, depthMm: number): SketchView => ({
  ...axialView(corner, depthMm),
  cuts: [0],
});
