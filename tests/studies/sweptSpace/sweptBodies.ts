import { identity } from '../../../src/math/rigid.ts';
import { alongX, alongY, constant, cosSin, type TaylorModel } from '../../../src/math/taylorModel.ts';
import type { TaylorRigid } from '../../../src/math/taylorVec.ts';
import { RelativeMotion } from '../../../src/proof/proveMotion.ts';
import {
  divideIntoCells,
  type MotionCell,
  type PoseRange,
} from '../../../src/studies/sweptSpace/motionCell.ts';
import { blocksAround, type SweptSolid, solidOf } from '../../../src/studies/sweptSpace/sweepBody.ts';
import type { SweptBody } from '../../../src/studies/sweptSpace/sweptBody.ts';

const [ZERO, ONE] = [constant(0), constant(1)];
export const UNTURNED: TaylorRigid['rows'] = [
  [ONE, ZERO, ZERO],
  [ZERO, ONE, ZERO],
  [ZERO, ZERO, ONE],
];
const STILL: TaylorRigid = { rows: UNTURNED, from: [0, 0, 0], to: [ZERO, ZERO, ZERO] };

/** Turn about z. */
export const aboutZ = (angle: TaylorModel): TaylorRigid['rows'] => {
  const { cos, sin } = cosSin(angle);
  const minus = sin.map((value, i) => (i === 15 ? value : -value)) as unknown as TaylorModel;
  return [
    [cos, minus, ZERO],
    [sin, cos, ZERO],
    [ZERO, ZERO, ONE],
  ];
};

/** Cells of a motion given in closed form: `travelMm` and `steer` are its two parameters. */
export function cellsOf(
  body: SweptBody,
  range: PoseRange,
  vehicleFromBody: (x: TaylorModel, y: TaylorModel) => TaylorRigid,
): MotionCell[] {
  const { cells, notEnclosed } = divideIntoCells([range], {
    enclose: ({ travelMm, travelHalfMm, steer, steerHalf }) =>
      new RelativeMotion(vehicleFromBody(alongX(travelMm, travelHalfMm), alongY(steer, steerHalf)), STILL)
        .forward,
    bodyFromCarrier: identity(),
    body: { centre: [0, 0, 0], radiusMm: body.reachMm },
  });
  if (notEnclosed !== undefined) throw new Error('the motion of the test is not enclosed');
  return cells;
}

/** The solid that a body sweeps. */
export function sweepBody(body: SweptBody, cells: readonly MotionCell[], withinMm: number): SweptSolid {
  const blocks = blocksAround(body, cells, withinMm);
  return solidOf(
    blocks,
    blocks.blocks.map((_, index) => blocks.measure(index)),
  );
}

/** Half profile of a ball about the origin, circumscribed, so that it contains the ball. */
export const ballProfile = (radiusMm: number, sides = 64): [number, number][] => {
  const outside = radiusMm / Math.cos(Math.PI / sides);
  return [
    [0, -outside],
    ...Array.from({ length: sides / 2 }, (_, k): [number, number] => {
      const angle = -Math.PI / 2 + (2 * Math.PI * (k + 0.5)) / sides;
      return [outside * Math.cos(angle), outside * Math.sin(angle)];
    }),
    [0, outside],
  ];
};

/** A box about the origin, for tests of bodies that are not spun. */
export class BoxBody implements SweptBody {
  readonly isSpun = false;
  readonly count = 1;
  readonly reachMm: number;
  distanceMm = 0;
  nx = 0;
  ny = 0;
  nz = 0;
  outward = 0;
  private readonly half: readonly number[];

  constructor(halfX: number, halfY: number, halfZ: number) {
    this.half = [halfX, halfY, halfZ];
    this.reachMm = Math.hypot(halfX, halfY, halfZ);
  }

  atLeastMm(_piece: number, x: number, y: number, z: number): number {
    return Math.max(...[x, y, z].map((c, i) => Math.abs(c) - this.half[i]));
  }

  measure(_piece: number, x: number, y: number, z: number): void {
    const out = [x, y, z].map((c, i) => Math.abs(c) - this.half[i]);
    const most = Math.max(...out);
    const sides = [x, y, z].map((c) => (c < 0 ? -1 : 1));
    const toward =
      most <= 1e-9
        ? out.map((_, i) => (i === out.indexOf(most) ? sides[i] : 0))
        : out.map((o, i) => Math.max(o, 0) * sides[i]);
    const length = Math.hypot(...toward);
    this.distanceMm = most <= 1e-9 ? most : length;
    [this.nx, this.ny, this.nz] = toward.map((c) => c / length);
  }
}
