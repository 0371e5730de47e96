import {
  addScaled,
  constant,
  mul,
  reciprocal,
  scale,
  sqrt,
  sub,
  type TaylorModel,
} from '../math/taylorModel.ts';
import {
  addVec,
  columnsToRows,
  combine,
  constantVec,
  crossVec,
  dotVec,
  movedPoint,
  mulVec,
  scaleVec,
  subVec,
  type TaylorRigid,
  type TaylorVec,
  turned,
} from '../math/taylorVec.ts';
import { normalize, sub as subPlain, type Vec3 } from '../math/vec.ts';
import type { AssemblyEnclosure } from './enclosure.ts';
import type { Arm, Mechanism } from './linkage.ts';
import type { Carriers } from './pose.ts';

/** `vehicleFromCarrier` of each carrier over a cell. */
export type CarrierEnclosures = Readonly<Record<keyof Carriers, TaylorRigid>>;

const ONE = constant(1);
const still = (point: Vec3): TaylorRigid => ({
  rows: [constantVec([1, 0, 0]), constantVec([0, 1, 0]), constantVec([0, 0, 1])],
  from: point,
  to: constantVec(point),
});

/** Turn whose axis is `sin` times a unit vector, by Rodrigues' formula; `share` is (1 - cos) / sin^2. */
function rodrigues(cos: TaylorModel, axis: TaylorVec, share: TaylorModel): TaylorRigid['rows'] {
  const [x, y, z] = axis;
  const outer = (a: TaylorModel, b: TaylorModel) => mul(mul(a, b), share);
  const add = (a: TaylorModel, b: TaylorModel) => addScaled(a, b, 1);
  const [xy, yz, zx] = [outer(x, y), outer(y, z), outer(z, x)];
  return [
    [add(cos, outer(x, x)), sub(xy, z), add(zx, y)],
    [add(xy, z), add(cos, outer(y, y)), sub(yz, x)],
    [sub(zx, y), add(yz, x), add(cos, outer(z, z))],
  ];
}

/** Turn of an arm about its pivot line. */
function armRows({ axis }: Arm, cos: TaylorModel, sin: TaylorModel): TaylorRigid['rows'] {
  const sinAxis = mulVec(constantVec(axis), sin);
  // (1 - cos) axis axis^T, the axis being plain, needs no quotient by sin^2.
  const rest = sub(ONE, cos);
  const rows = rodrigues(cos, sinAxis, constant(0));
  return rows.map((row, r) =>
    row.map((entry, c) => addScaled(entry, rest, axis[r] * axis[c])),
  ) as unknown as TaylorRigid['rows'];
}

/** The least turn that takes a plain unit vector to another; see `leastRotation`. */
function leastTurn(from: Vec3, to: TaylorVec): TaylorRigid['rows'] {
  const cos = combine(to, from);
  return rodrigues(cos, crossVec(constantVec(from), to), reciprocal(addScaled(ONE, cos, 1)));
}

const unit = (v: TaylorVec): TaylorVec => mulVec(v, reciprocal(sqrt(dotVec(v, v))));

/** The carriers of an assembly over a cell: the same closed forms as in `carriersOf`. */
export function encloseCarriers(m: Mechanism, at: AssemblyEnclosure): CarrierEnclosures {
  const { hardpoints: h } = m;
  const out = subVec(at.upperJoint, constantVec(m.upper.centre));
  const perRadius = 1 / m.upper.radius;
  const upperCos = scale(combine(out, m.upper.u), perRadius);
  const upperSin = scale(combine(out, m.upper.v), perRadius);

  const own = m.uprightFromVehicle;
  const frame = columnsToRows(at.upright);
  const columns = [0, 1, 2].map((c) =>
    turned(frame, [own[c], own[4 + c], own[8 + c]]),
  ) as unknown as Parameters<typeof columnsToRows>[0];
  const upright: TaylorRigid = {
    rows: columnsToRows(columns),
    from: h.lowerJoint,
    // Where the lower joint stands in the upright's own frame is 0 but for rounding, which counts here.
    to: addVec(at.lowerJoint, turned(frame, ownOrigin(m))),
  };
  const rod = scaleVec(subVec(at.tieRodOuter, at.tieRodInner), 1 / m.tieRodLengthMm);
  const carriers = {
    chassis: still(h.lowerJoint),
    rack: { ...still(h.tieRodInner), to: at.tieRodInner },
    lowerArm: {
      rows: armRows(m.lower, at.lowerArm.cos, at.lowerArm.sin),
      from: h.lowerJoint,
      to: at.lowerJoint,
    },
    upperArm: { rows: armRows(m.upper, upperCos, upperSin), from: h.upperJoint, to: at.upperJoint },
    upright,
    wheel: upright,
    tieRod: {
      rows: leastTurn(normalize(subPlain(h.tieRodOuter, h.tieRodInner)), rod),
      from: h.tieRodInner,
      to: at.tieRodInner,
    },
    damperBody: still(h.lowerJoint),
    damperRod: still(h.lowerJoint),
  };
  if (m.damper === undefined) return carriers;
  const { chassisMount, armMount, on } = m.damper;
  const moved = movedPoint(carriers[on], armMount);
  const rows = leastTurn(
    normalize(subPlain(armMount, chassisMount)),
    unit(subVec(moved, constantVec(chassisMount))),
  );
  const atChassis = { rows, from: chassisMount, to: constantVec(chassisMount) };
  const atArm = { rows, from: armMount, to: moved };
  const bodyAtChassis = m.damperBodyEnd === 'chassis';
  return {
    ...carriers,
    damperBody: bodyAtChassis ? atChassis : atArm,
    damperRod: bodyAtChassis ? atArm : atChassis,
  };
}

/** The lower joint of ride height in the upright's own frame. */
function ownOrigin({ uprightFromVehicle: t, hardpoints: { lowerJoint: p } }: Mechanism): Vec3 {
  return [0, 4, 8].map((r) => t[r] * p[0] + t[r + 1] * p[1] + t[r + 2] * p[2] + t[r + 3]) as [
    number,
    number,
    number,
  ];
}
