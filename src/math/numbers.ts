import type { Algebra } from './algebra.ts';
import type { Rigid } from './rigid.ts';
import * as rigid from './rigid.ts';
import { cos, sin } from './sine.ts';
import type { Vec3 } from './vec.ts';
import * as v from './vec.ts';

export interface NumberKind {
  scalar: number;
  turn: number;
  frame: Rigid;
}

/** Moves the point `from` of a rotation about the origin to `to`. */
function movedTo(rotation: Rigid, from: Vec3, to: Vec3): Rigid {
  const shift = v.sub(to, rigid.applyPoint(rotation, from));
  rotation[3] = shift[0];
  rotation[7] = shift[1];
  rotation[11] = shift[2];
  return rotation;
}

class Numbers implements Algebra<NumberKind> {
  plus(a: number, b: number) {
    return a + b;
  }
  over(a: number, b: number) {
    return a / b;
  }
  offset(a: number, c: number) {
    return a + c;
  }
  by(a: number, c: number) {
    return a * c;
  }

  turn(angleRad: number) {
    return angleRad;
  }
  turnTo(x: number, y: number) {
    return Math.atan2(y, x);
  }
  cos(turn: number) {
    return cos(turn);
  }
  sin(turn: number) {
    return sin(turn);
  }

  vec(a: Vec3) {
    return a;
  }
  part(a: Vec3, index: 0 | 1 | 2) {
    return a[index];
  }
  add(a: Vec3, b: Vec3) {
    return v.add(a, b);
  }
  sub(a: Vec3, b: Vec3) {
    return v.sub(a, b);
  }
  scale(a: Vec3, s: number) {
    return v.scale(a, s);
  }
  addScaled(a: Vec3, b: Vec3, s: number) {
    return v.addScaled(a, b, s);
  }
  mul(a: Vec3, s: number) {
    return v.scale(a, s);
  }
  addMul(a: Vec3, b: Vec3, s: number) {
    return v.addScaled(a, b, s);
  }
  subMul(a: Vec3, b: Vec3, s: number) {
    return v.addScaled(a, b, -s);
  }
  along(a: Vec3, d: Vec3, s: number) {
    return v.addScaled(a, d, s);
  }
  dot(a: Vec3, b: Vec3) {
    return v.dot(a, b);
  }
  component(a: Vec3, d: Vec3) {
    return v.dot(a, d);
  }
  cross(a: Vec3, b: Vec3) {
    return v.cross(a, b);
  }
  combine(a: Vec3, b: Vec3, c: Vec3, [x, y, z]: Vec3) {
    return v.addScaled(v.addScaled(v.scale(a, x), b, y), c, z);
  }
  onCircle({ centre, radius, u, v: side }: Parameters<Algebra<NumberKind>['onCircle']>[0], turn: number) {
    return v.addScaled(v.addScaled(centre, u, radius * cos(turn)), side, radius * sin(turn));
  }
  velocityAbout({ centre, axis }: { centre: Vec3; axis: Vec3 }, point: Vec3) {
    return v.cross(axis, v.sub(point, centre));
  }
  heightRate(velocity: Vec3, turn: Vec3, arm: Vec3) {
    return velocity[2] + turn[0] * arm[1] - turn[1] * arm[0];
  }
  unit(a: Vec3) {
    return v.normalize(a);
  }
  unitOf(a: Vec3) {
    return v.normalize(a);
  }

  circleSphere(distanceSq: number, reachSq: number, radius: number, sphereRadius: number, branch: number) {
    const reach = Math.sqrt(reachSq);
    const cosine = (distanceSq + radius * radius - sphereRadius * sphereRadius) / (2 * radius * reach);
    if (!(Math.abs(cosine) < 1)) return undefined;
    const sine = branch * Math.sqrt((1 - cosine) * (1 + cosine));
    return { ahead: (radius * cosine) / reach, aside: (radius * sine) / reach };
  }

  shift(from: Vec3, to: Vec3) {
    return rigid.translation(v.sub(to, from));
  }
  about(point: Vec3, axis: Vec3, turn: number) {
    return rigid.rotationAbout(point, axis, turn);
  }
  leastTurn(was: Vec3, is: Vec3, from: Vec3, to: Vec3) {
    return movedTo(rigid.leastRotation(was, is), from, to);
  }
  placed([x, y, z]: readonly [Vec3, Vec3, Vec3], origin: Vec3, ownFromVehicle: Rigid) {
    return rigid.compose(rigid.fromAxes(x, y, z, origin), ownFromVehicle);
  }
  compose(outer: Rigid, inner: Rigid) {
    return rigid.compose(outer, inner);
  }
  moved(frame: Rigid, point: Vec3) {
    return rigid.applyPoint(frame, point);
  }
}

/** Plain numbers: poses. */
export const NUMBERS: Algebra<NumberKind> = new Numbers();
