import type { Corner, JointPlace, Suspension } from '../../src/design/schema.ts';
import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { limitsOf } from '../../src/proof/limits.ts';
import type { MeasuredLimit } from '../../src/sweep/limit.ts';
import { mechanismOf } from '../../src/sweep/setUp.ts';
import { stepsThroughZero } from '../../src/sweep/steps.ts';
import { between } from '../oracles/random.ts';

const JOINT_PLACES = Object.keys(doubleWishboneRack.joints);

export interface LimitSteps {
  travelSteps?: number;
  steerSteps?: number;
}

/** Every limit of a corner, by default at the step counts of a sweep. */
export function limitsAt(
  corner: Corner,
  { travelSteps = 41, steerSteps = 21 }: LimitSteps = {},
): MeasuredLimit[] {
  const { bump, droop } = corner.suspension.travel;
  return limitsOf(
    corner,
    mechanismOf(corner),
    stepsThroughZero(-droop, bump, travelSteps),
    stepsThroughZero(-1, 1, steerSteps),
  );
}

/** A parsed joint with the given fields replaced. */
export const jointAt = (at: JointPlace, given: object) => ({
  id: at,
  kind: 'joint',
  at,
  form: 'ball',
  ballDiameter: 30,
  housingDiameter: 44,
  housingWidth: 18,
  boltDiameter: 14,
  boltLength: 60,
  boltDirection: [0, 0, 1] as Vec3,
  ...given,
});

/** A corner with only joints and a damper. */
export const bareCorner = (suspension: Suspension, joints: readonly object[], damper?: object): Corner =>
  ({
    name: 'Bare',
    side: 'left',
    suspension,
    parts: [...joints, ...(damper === undefined ? [] : [damper])],
    pairs: [],
  }) as unknown as Corner;

export const damperOf = (given: object = {}) => ({
  id: 'damper',
  kind: 'damper',
  bodyLength: 200,
  eyeDiameter: 30,
  bodyEnd: 'chassis',
  ...given,
});

/**
 * A joint with a random bolt direction at every place, every second one a rod end, and a damper if the suspension has
 * one.
 */
export const randomLimits = (random: () => number, suspension: Suspension): Corner =>
  bareCorner(
    suspension,
    JOINT_PLACES.map((at, k) =>
      jointAt(at, {
        form: k % 2 === 0 ? 'ball' : 'rodEnd',
        boltDirection: [between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)],
      }),
    ),
    suspension.damper && damperOf(),
  );
