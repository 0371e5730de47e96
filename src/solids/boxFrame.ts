import type { Entry } from '../design/schema.ts';
import { compose, type Rigid, rotationAbout, translation } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import { degToRad } from '../units/angle.ts';

const about = (axis: Vec3, degrees: number) => rotationAbout([0, 0, 0], axis, degToRad(degrees));

/** Frame of a box: origin at its centre, axes turned about vehicle X, then Y, then Z (right-hand rule). */
export const vehicleFromBox = ({ centre, rollDeg, pitchDeg, yawDeg }: Entry<'box'>): Rigid =>
  compose(
    translation(centre),
    compose(about([0, 0, 1], yawDeg), compose(about([0, 1, 0], pitchDeg), about([1, 0, 0], rollDeg))),
  );
