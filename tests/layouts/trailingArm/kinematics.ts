import type { Kinematics, Linkage, Posed } from '../../../src/layouts/kinematics.ts';
import type { Algebra, Kind, VecOf } from '../../../src/math/algebra.ts';
import type { NumberKind } from '../../../src/math/numbers.ts';
import { applyDirection } from '../../../src/math/rigid.ts';
import { LEAST_SINE } from '../../../src/math/tolerances.ts';
import {
  cross,
  distanceFromLine,
  dot,
  normalize,
  perpendicular,
  sub,
  type Vec3,
} from '../../../src/math/vec.ts';

const RAD = Math.PI / 180;

interface ArmLinkage extends Linkage {
  pivot: Vec3;
  pivotAxis: Vec3;
  kingpin: Vec3;
  kingpinAxis: Vec3;
  wheelCentre: Vec3;
  outboardDeg: number;
  inboardDeg: number;
}

interface PosedArm<K extends Kind> extends Posed<K> {
  arm: K['frame'];
  upright: K['frame'];
  wheelCentre: VecOf<K>;
}

/** Travel turns the arm; the steering input is the upright's rotation about the kingpin, degrees. */
export const kinematics: Kinematics<ArmLinkage> = {
  prepare({ hardpoints: h, steering }) {
    const axis = normalize(sub(h.kingpinUpper, h.kingpinLower));
    return {
      armRadiusMm: distanceFromLine(h.kingpinLower, h.pivotInboard, h.pivotOutboard),
      inputPerRad: 1 / RAD,
      pivot: h.pivotInboard,
      pivotAxis: normalize(sub(h.pivotOutboard, h.pivotInboard)),
      kingpin: h.kingpinLower,
      kingpinAxis: axis,
      wheelCentre: h.wheelCentre,
      outboardDeg: steering.outboardDeg as number,
      inboardDeg: steering.inboardDeg as number,
    };
  },

  rangeProblems: ({ hardpoints }, { armRadiusMm }, riseRateMm) =>
    riseRateMm === undefined || Math.abs(riseRateMm) / armRadiusMm < LEAST_SINE
      ? [
          {
            path: 'suspension.hardpoints.kingpinLower',
            found: JSON.stringify(hardpoints.kingpinLower),
            message: 'the wheel centre neither rises nor falls when the arm turns from ride height',
          },
        ]
      : [],

  inputAt: ({ kingpinAxis, outboardDeg, inboardDeg }, steer) =>
    Math.sign(kingpinAxis[2]) * steer * (steer > 0 ? outboardDeg : inboardDeg),

  pose<K extends Kind>(
    A: Algebra<K>,
    m: ArmLinkage,
    armRad: K['scalar'],
    inputDeg: K['scalar'],
  ): PosedArm<K> {
    const turnAbout = (at: Vec3, axis: Vec3, turn: K['turn']) => A.about(at, axis, turn, at, A.vec(at));
    const arm = turnAbout(m.pivot, m.pivotAxis, A.turn(armRad));
    const upright = A.compose(arm, turnAbout(m.kingpin, m.kingpinAxis, A.turn(A.by(inputDeg, RAD))));
    const wheelCentre = A.moved(upright, m.wheelCentre);
    return { arm, upright, wheelCentre, rise: A.offset(A.part(wheelCentre, 2), -m.wheelCentre[2]) };
  },

  rates<K extends Kind>(A: Algebra<K>, m: ArmLinkage, { wheelCentre }: PosedArm<K>) {
    const rate = A.cross(A.vec(m.pivotAxis), A.sub(wheelCentre, A.vec(m.pivot)));
    return { rise: A.part(rate, 2) };
  },

  members: <K extends Kind>(_: Algebra<K>, __: ArmLinkage, { arm, upright }: PosedArm<K>) => ({
    arm,
    upright,
  }),

  solverRates({ kingpin, kingpinAxis, wheelCentre }, posed) {
    const { arm, upright } = posed as PosedArm<NumberKind>;
    const out = applyDirection(upright, sub(wheelCentre, kingpin));
    const [, , perRad] = cross(applyDirection(arm, kingpinAxis), out);
    return { riseInputRate: perRad * RAD, closures: [] };
  },

  armRad({ pivotAxis }, { arm }) {
    const was = perpendicular(pivotAxis);
    const is = applyDirection(arm, was);
    return Math.atan2(dot(is, cross(pivotAxis, was)), dot(is, was));
  },
};
