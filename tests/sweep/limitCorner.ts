import { type Corner, JOINT_PLACES, type Suspension } from '../../src/design/schema.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import type { MeasuredLimit } from '../../src/sweep/limit.ts';
import { limitsOf } from '../../src/sweep/limits.ts';
import { mechanismOf } from '../../src/sweep/setUp.ts';
import { stepsThroughZero } from '../../src/sweep/steps.ts';
import { between } from '../oracles/random.ts';

export interface LimitSteps {
  travelSteps?: number;
  steerSteps?: number;
}

/** Every limit of a corner, by default at as many steps as a sweep has. */
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

/** A joint as read, with what is given. */
export const jointAt = (at: (typeof JOINT_PLACES)[number], given: object) => ({
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

/** A corner of joints and a damper alone. */
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

/** A joint with a bolt anywhere at every place, every other one a rod end, and a damper where the suspension has one. */
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
