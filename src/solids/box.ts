import type { Entry } from '../design/schema.ts';
import { compose, rotationAbout, translation } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import { degToRad } from '../units/angle.ts';
import type { Builder } from './build.ts';
import { placed } from './place.ts';

const about = (axis: Vec3, degrees: number) => rotationAbout([0, 0, 0], axis, degToRad(degrees));

/** A rectangular block, turned about vehicle X, then Y, then Z through its centre (right-hand rule, ISO 8855 axes). */
export const buildBox: Builder<Entry<'box'>> = (entry, { modeller }) => {
  const { id, carrier, centre, size } = entry;
  const turned = compose(
    about([0, 0, 1], entry.yawDeg),
    compose(about([0, 1, 0], entry.pitchDeg), about([1, 0, 0], entry.rollDeg)),
  );
  const solid = modeller.Manifold.cube([...size], true);
  const vehicleFromBox = compose(translation(centre), turned);
  return [{ id, kind: 'box', carrier, attachments: [], ...placed(solid, vehicleFromBox, 0) }];
};
