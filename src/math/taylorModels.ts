import type { Algebra } from './algebra.ts';
import type { Rigid } from './rigid.ts';
import {
  add,
  addScaled,
  constant,
  cosSin,
  mul,
  reciprocal,
  scale,
  sqrt,
  sub,
  type TaylorModel,
} from './taylorModel.ts';
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
} from './taylorVec.ts';
import type { Vec3 } from './vec.ts';

export interface TaylorKind {
  scalar: TaylorModel;
  turn: { cos: TaylorModel; sin: TaylorModel };
  frame: TaylorRigid;
}

type Turn = TaylorKind['turn'];
type Rows = TaylorRigid['rows'];

const ONE = constant(1);
const UNTURNED: Rows = [constantVec([1, 0, 0]), constantVec([0, 1, 0]), constantVec([0, 0, 1])];

/**
 * Rotation about an axis of length sin, by Rodrigues' formula. `axis` is the unit vector times `sin`; `share` is (1 -
 * cos) / sin^2.
 */
function rodrigues(cos: TaylorModel, axis: TaylorVec, share: TaylorModel): Rows {
  const [x, y, z] = axis;
  const outer = (a: TaylorModel, b: TaylorModel) => mul(mul(a, b), share);
  const [xy, yz, zx] = [outer(x, y), outer(y, z), outer(z, x)];
  return [
    [add(cos, outer(x, x)), sub(xy, z), add(zx, y)],
    [add(xy, z), add(cos, outer(y, y)), sub(yz, x)],
    [sub(zx, y), add(yz, x), add(cos, outer(z, z))],
  ];
}

/** Rotation about a plain axis: (1 - cos) axis axis^T needs no division by sin^2. */
function turnRows([x, y, z]: Vec3, { cos, sin }: Turn): Rows {
  const rest = sub(ONE, cos);
  const entry = (onDiagonal: boolean, product: number, part: number): TaylorModel => {
    const outer = scale(rest, product);
    return onDiagonal ? add(cos, outer) : addScaled(outer, sin, part);
  };
  return [
    [entry(true, x * x, 0), entry(false, x * y, -z), entry(false, z * x, y)],
    [entry(false, x * y, z), entry(true, y * y, 0), entry(false, y * z, -x)],
    [entry(false, z * x, -y), entry(false, y * z, x), entry(true, z * z, 0)],
  ];
}

class TaylorModels implements Algebra<TaylorKind> {
  plus(a: TaylorModel, b: TaylorModel) {
    return add(a, b);
  }
  over(a: TaylorModel, b: TaylorModel) {
    return mul(a, reciprocal(b));
  }
  offset(a: TaylorModel, c: number) {
    return addScaled(a, ONE, c);
  }
  by(a: TaylorModel, c: number) {
    return scale(a, c);
  }

  turn(angleRad: TaylorModel) {
    return cosSin(angleRad);
  }
  turnTo(x: TaylorModel, y: TaylorModel, radius: number) {
    return { cos: scale(x, 1 / radius), sin: scale(y, 1 / radius) };
  }
  cos(turn: Turn) {
    return turn.cos;
  }
  sin(turn: Turn) {
    return turn.sin;
  }

  vec(a: Vec3) {
    return constantVec(a);
  }
  part(a: TaylorVec, index: 0 | 1 | 2) {
    return a[index];
  }
  add(a: TaylorVec, b: TaylorVec) {
    return addVec(a, b);
  }
  sub(a: TaylorVec, b: TaylorVec) {
    return subVec(a, b);
  }
  scale(a: TaylorVec, s: number) {
    return scaleVec(a, s);
  }
  addScaled(a: TaylorVec, b: TaylorVec, s: number): TaylorVec {
    return [addScaled(a[0], b[0], s), addScaled(a[1], b[1], s), addScaled(a[2], b[2], s)];
  }
  mul(a: TaylorVec, s: TaylorModel) {
    return mulVec(a, s);
  }
  addMul(a: TaylorVec, b: TaylorVec, s: TaylorModel) {
    return addVec(a, mulVec(b, s));
  }
  subMul(a: TaylorVec, b: TaylorVec, s: TaylorModel) {
    return subVec(a, mulVec(b, s));
  }
  along(a: TaylorVec, d: Vec3, s: TaylorModel): TaylorVec {
    return [addScaled(a[0], s, d[0]), addScaled(a[1], s, d[1]), addScaled(a[2], s, d[2])];
  }
  dot(a: TaylorVec, b: TaylorVec) {
    return dotVec(a, b);
  }
  component(a: TaylorVec, d: Vec3) {
    return combine(a, d);
  }
  cross(a: TaylorVec, b: TaylorVec) {
    return crossVec(a, b);
  }
  combine(a: TaylorVec, b: TaylorVec, c: TaylorVec, xyz: Vec3): TaylorVec {
    return [
      combine([a[0], b[0], c[0]], xyz),
      combine([a[1], b[1], c[1]], xyz),
      combine([a[2], b[2], c[2]], xyz),
    ];
  }
  onCircle({ centre, radius, u, v }: Parameters<Algebra<TaylorKind>['onCircle']>[0], { cos, sin }: Turn) {
    return this.along(this.along(constantVec(centre), u, scale(cos, radius)), v, scale(sin, radius));
  }
  velocityAbout({ centre, axis: [x, y, z] }: { centre: Vec3; axis: Vec3 }, point: TaylorVec): TaylorVec {
    const out = subVec(point, constantVec(centre));
    return [
      addScaled(scale(out[2], y), out[1], -z),
      addScaled(scale(out[0], z), out[2], -x),
      addScaled(scale(out[1], x), out[0], -y),
    ];
  }
  heightRate(velocity: TaylorVec, turn: TaylorVec, arm: TaylorVec) {
    return sub(add(velocity[2], mul(turn[0], arm[1])), mul(turn[1], arm[0]));
  }
  unit(a: TaylorVec) {
    return mulVec(a, reciprocal(sqrt(dotVec(a, a))));
  }
  unitOf(a: TaylorVec, length: number) {
    return scaleVec(a, 1 / length);
  }

  circleSphere(
    distanceSq: TaylorModel,
    reachSq: TaylorModel,
    radius: number,
    sphereRadius: number,
    branch: number,
  ) {
    const powers = this.offset(this.offset(distanceSq, radius * radius), -sphereRadius * sphereRadius);
    const perReachSq = reciprocal(reachSq);
    const ahead = scale(mul(powers, perReachSq), 0.5);
    const aside = sqrt(sub(scale(perReachSq, radius * radius), mul(ahead, ahead)));
    return { ahead, aside: scale(aside, branch) };
  }

  shift(from: Vec3, to: TaylorVec): TaylorRigid {
    return { rows: UNTURNED, from, to };
  }
  about(_point: Vec3, axis: Vec3, turn: Turn, from: Vec3, to: TaylorVec): TaylorRigid {
    return { rows: turnRows(axis, turn), from, to };
  }
  leastTurn(was: Vec3, is: TaylorVec, from: Vec3, to: TaylorVec): TaylorRigid {
    const cos = combine(is, was);
    const rows = rodrigues(cos, crossVec(constantVec(was), is), reciprocal(addScaled(ONE, cos, 1)));
    return { rows, from, to };
  }
  placed(
    axes: readonly [TaylorVec, TaylorVec, TaylorVec],
    origin: TaylorVec,
    own: Rigid,
    from: Vec3,
  ): TaylorRigid {
    const frame = columnsToRows(axes);
    const column = (c: number) => turned(frame, [own[c], own[4 + c], own[8 + c]]);
    const ownRow = (r: number) => own[r] * from[0] + own[r + 1] * from[1] + own[r + 2] * from[2] + own[r + 3];
    return {
      rows: columnsToRows([column(0), column(1), column(2)]),
      from,
      // For a point at the origin this is 0 except for rounding, which must be enclosed.
      to: addVec(origin, turned(frame, [ownRow(0), ownRow(4), ownRow(8)])),
    };
  }
  compose(outer: TaylorRigid, inner: TaylorRigid): TaylorRigid {
    const turn = (a: TaylorVec): TaylorVec => [
      dotVec(outer.rows[0], a),
      dotVec(outer.rows[1], a),
      dotVec(outer.rows[2], a),
    ];
    const [x, y, z] = columnsToRows(inner.rows);
    const out = subVec(inner.to, constantVec(outer.from));
    return {
      rows: columnsToRows([turn(x), turn(y), turn(z)]),
      from: inner.from,
      to: addVec(outer.to, turn(out)),
    };
  }
  moved(frame: TaylorRigid, point: Vec3) {
    return movedPoint(frame, point);
  }
}

/** Taylor models: enclosures over a cell of poses. */
export const TAYLOR_MODELS: Algebra<TaylorKind> = new TaylorModels();
