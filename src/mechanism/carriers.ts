import {
  applyPoint,
  compose,
  identity,
  leastRotation,
  type Rigid,
  rotationAbout,
  translation,
} from '../math/rigid.ts';
import { normalize, sub, type Vec3 } from '../math/vec.ts';
import type { Assembly } from './assemble.ts';
import { armAngleAt, type Mechanism, tieRodInnerAt, uprightFrame } from './linkage.ts';
import type { Carriers } from './pose.ts';

/** Takes `start0` to `start`, turned by the least rotation that takes the direction to `end0` into that to `end`. */
function alongLink(start0: Vec3, end0: Vec3, start: Vec3, end: Vec3): Rigid {
  const moved = leastRotation(normalize(sub(end0, start0)), normalize(sub(end, start)));
  const shift = sub(start, applyPoint(moved, start0));
  moved[3] = shift[0];
  moved[7] = shift[1];
  moved[11] = shift[2];
  return moved;
}

/** Every carrier's frame is the vehicle's own at ride height, straight ahead: by definition, so to the last bit. */
const atRideHeight = (): Carriers => ({
  chassis: identity(),
  rack: identity(),
  lowerArm: identity(),
  upperArm: identity(),
  upright: identity(),
  wheel: identity(),
  tieRod: identity(),
  damperBody: identity(),
  damperRod: identity(),
});

/**
 * `vehicleFromCarrier` of every carrier of an assembly. A tie rod or damper is free to spin about its own line; it is
 * carried without spin, by the least turn from its direction at ride height.
 */
export function carriersOf(m: Mechanism, assembly: Assembly): Carriers {
  if (assembly.lowerArmRad === 0 && assembly.rackMm === 0) return atRideHeight();
  const { hardpoints } = m;
  const { lowerJoint, kingpin, tieRodOuter } = assembly;
  const upright = compose(uprightFrame(lowerJoint, kingpin, tieRodOuter), m.uprightFromVehicle);
  const tieRodInner = tieRodInnerAt(m, assembly.rackMm);
  const carriers = {
    chassis: identity(),
    rack: translation(sub(tieRodInner, hardpoints.tieRodInner)),
    lowerArm: rotationAbout(m.lower.front, m.lower.axis, assembly.lowerArmRad),
    upperArm: rotationAbout(m.upper.front, m.upper.axis, armAngleAt(m.upper, assembly.upperJoint)),
    upright,
    wheel: upright.slice(),
    tieRod: alongLink(hardpoints.tieRodInner, hardpoints.tieRodOuter, tieRodInner, tieRodOuter),
    damperBody: identity(),
    damperRod: identity(),
  };
  if (m.damper === undefined) return carriers;
  const { chassisMount, armMount, on } = m.damper;
  const moved = applyPoint(carriers[on], armMount);
  const atChassis = alongLink(chassisMount, armMount, chassisMount, moved);
  const atArm = alongLink(armMount, chassisMount, moved, chassisMount);
  const bodyAtChassis = m.damperBodyEnd === 'chassis';
  carriers.damperBody = bodyAtChassis ? atChassis : atArm;
  carriers.damperRod = bodyAtChassis ? atArm : atChassis;
  return carriers;
}
