import type { Posed } from '../layouts/kinematics.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import type { Carrier } from '../layouts/suspension.ts';
import type { Algebra, Kind } from '../math/algebra.ts';
import { NUMBERS } from '../math/numbers.ts';
import { identity } from '../math/rigid.ts';
import { TAYLOR_MODELS, type TaylorKind } from '../math/taylorModels.ts';
import type { TaylorRigid } from '../math/taylorVec.ts';
import { normalize, sub } from '../math/vec.ts';
import type { Assembly } from './assemble.ts';
import type { Carriers } from './pose.ts';
import type { Mechanism } from './prepared.ts';

/** `vehicleFromCarrier` of each carrier over a cell. */
export type CarrierEnclosures = Readonly<Record<Carrier, TaylorRigid>>;

/**
 * `vehicleFromCarrier` of every carrier of a posed mechanism. A damper can spin freely about its own line. It gets no
 * spin here: the smallest rotation from its direction at ride height.
 */
function allMembers<K extends Kind>(
  A: Algebra<K>,
  { layout, linkage, hardpoints, damper, damperBodyEnd }: Mechanism,
  posed: Posed<K>,
): Record<Carrier, K['frame']> {
  const { wheelCentre } = hardpoints;
  const still = A.shift(wheelCentre, A.vec(wheelCentre));
  const own = layoutOf({ layout }).kinematics.members(A, linkage, posed);
  const members = { chassis: still, ...own, wheel: own.upright, damperBody: still, damperRod: still };
  if (damper === undefined) return members;
  const { chassisMount, armMount, on } = damper;
  const moved = A.moved(members[on as keyof typeof members], armMount);
  const mount = A.vec(chassisMount);
  const toArm = A.unit(A.sub(moved, mount));
  const atChassis = A.leastTurn(normalize(sub(armMount, chassisMount)), toArm, chassisMount, mount);
  const atArm = A.leastTurn(
    normalize(sub(chassisMount, armMount)),
    A.unit(A.sub(mount, moved)),
    armMount,
    moved,
  );
  const bodyAtChassis = damperBodyEnd === 'chassis';
  members.damperBody = bodyAtChassis ? atChassis : atArm;
  members.damperRod = bodyAtChassis ? atArm : atChassis;
  return members;
}

/** The carriers of an assembly. At ride height and straight ahead, every frame is by definition exactly the vehicle's. */
export function carriersOf(m: Mechanism, { armRad, input, posed }: Assembly): Carriers {
  if (armRad === 0 && input === 0)
    return Object.fromEntries(m.carriers.map((carrier) => [carrier, identity()]));
  return allMembers(NUMBERS, m, posed);
}

/** The carriers of a posed mechanism over a cell. */
export const encloseCarriers = (m: Mechanism, posed: Posed<TaylorKind>): CarrierEnclosures =>
  allMembers(TAYLOR_MODELS, m, posed);
