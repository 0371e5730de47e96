import type { Rigid } from './rigid.ts';
import type { Vec3 } from './vec.ts';

/** What an algebra computes with: scalars, angles of rotation, and rigid transforms `vehicleFromMember`. */
export interface Kind {
  scalar: unknown;
  turn: unknown;
  frame: unknown;
}

export type VecOf<K extends Kind> = readonly [K['scalar'], K['scalar'], K['scalar']];

/**
 * The operations of a closed form. A closed form written over them gives poses with `NUMBERS`, and enclosures over a
 * cell of poses with `TAYLOR_MODELS`. Lengths in mm, angles in radians.
 *
 * A closed form reads components with `part`, never with an index: code that indexes vectors of both kinds makes the
 * engine convert vectors of numbers to boxed ones, which slows all arithmetic tenfold. For the same reason the two
 * algebras are instances of classes.
 */
export interface Algebra<K extends Kind> {
  plus(a: K['scalar'], b: K['scalar']): K['scalar'];
  over(a: K['scalar'], b: K['scalar']): K['scalar'];
  /** `a + c`. */
  offset(a: K['scalar'], c: number): K['scalar'];
  /** `a c`. */
  by(a: K['scalar'], c: number): K['scalar'];

  turn(angleRad: K['scalar']): K['turn'];
  /** Angle of the point (x, y), which is `radius` from the origin. */
  turnTo(x: K['scalar'], y: K['scalar'], radius: number): K['turn'];
  cos(turn: K['turn']): K['scalar'];
  sin(turn: K['turn']): K['scalar'];

  /** A constant vector. */
  vec(v: Vec3): VecOf<K>;
  part(a: VecOf<K>, index: 0 | 1 | 2): K['scalar'];
  add(a: VecOf<K>, b: VecOf<K>): VecOf<K>;
  sub(a: VecOf<K>, b: VecOf<K>): VecOf<K>;
  scale(a: VecOf<K>, s: number): VecOf<K>;
  /** `a + s b`. */
  addScaled(a: VecOf<K>, b: VecOf<K>, s: number): VecOf<K>;
  /** `s a`. */
  mul(a: VecOf<K>, s: K['scalar']): VecOf<K>;
  /** `a + s b`. */
  addMul(a: VecOf<K>, b: VecOf<K>, s: K['scalar']): VecOf<K>;
  /** `a - s b`. */
  subMul(a: VecOf<K>, b: VecOf<K>, s: K['scalar']): VecOf<K>;
  /** `a + s d` for a constant direction. */
  along(a: VecOf<K>, d: Vec3, s: K['scalar']): VecOf<K>;
  dot(a: VecOf<K>, b: VecOf<K>): K['scalar'];
  /** Dot product with a constant vector. */
  component(a: VecOf<K>, d: Vec3): K['scalar'];
  cross(a: VecOf<K>, b: VecOf<K>): VecOf<K>;
  /** `x a + y b + z c` for the constants of `xyz`. */
  combine(a: VecOf<K>, b: VecOf<K>, c: VecOf<K>, xyz: Vec3): VecOf<K>;
  /** The point of a circle at a turn from `u`; `u` and `v` are perpendicular unit vectors in its plane. */
  onCircle(circle: { centre: Vec3; radius: number; u: Vec3; v: Vec3 }, turn: K['turn']): VecOf<K>;
  /** Velocity of a point that turns about a line through `centre`, per radian. */
  velocityAbout(line: { centre: Vec3; axis: Vec3 }, point: VecOf<K>): VecOf<K>;
  /** Z of `velocity + turn x arm`. */
  heightRate(velocity: VecOf<K>, turn: VecOf<K>, arm: VecOf<K>): K['scalar'];
  unit(a: VecOf<K>): VecOf<K>;
  /** Unit vector along `a`, whose length is `length` except for rounding. */
  unitOf(a: VecOf<K>, length: number): VecOf<K>;

  /**
   * Where a circle meets a sphere, in units of the distance from the circle's centre to the sphere's centre projected
   * on the circle's plane: offset toward that projection, and to the side of it (`branch` +1 or -1). `distanceSq`:
   * squared distance of the centres. `reachSq`: squared projected distance. Undefined if the two do not meet; with enclosures the result is unknown instead.
   */
  circleSphere(
    distanceSq: K['scalar'],
    reachSq: K['scalar'],
    radius: number,
    sphereRadius: number,
    branch: number,
  ): { ahead: K['scalar']; aside: K['scalar'] } | undefined;

  /** Frames. `from` is a constant point near the member and `to` its image; plain numbers do not need them. */

  /** Translation. */
  shift(from: Vec3, to: VecOf<K>): K['frame'];
  /** Rotation about the line through `point` along the unit vector `axis`. */
  about(point: Vec3, axis: Vec3, turn: K['turn'], from: Vec3, to: VecOf<K>): K['frame'];
  /** The smallest rotation from the unit vector `was` to the unit vector `is`. */
  leastTurn(was: Vec3, is: VecOf<K>, from: Vec3, to: VecOf<K>): K['frame'];
  /** The member whose own frame has these axes and this origin. `from`: a point near the origin at ride height. */
  placed(
    axes: readonly [VecOf<K>, VecOf<K>, VecOf<K>],
    origin: VecOf<K>,
    ownFromVehicle: Rigid,
    from: Vec3,
  ): K['frame'];
  /** `outer` after `inner`. */
  compose(outer: K['frame'], inner: K['frame']): K['frame'];
  moved(frame: K['frame'], point: Vec3): VecOf<K>;
}
