import type { SolidKind } from '../solids/solid.ts';

/** Least clearance wanted between two kinds, with where the figure comes from. A default, never a rule. */
export interface Target {
  mm: number;
  origin: string;
}

const COMMON = 'common practice, no source';
const CHASSIS: readonly SolidKind[] = ['tube', 'box', 'plate'];
const LINKS: readonly SolidKind[] = ['controlArm', 'joint', 'jointBolt', 'tieRod'];
const DAMPER: readonly SolidKind[] = ['damperBody', 'damperRod'];
const AT_WHEEL: readonly SolidKind[] = ['upright', 'bearingHousing', 'hub', 'rotor', 'spacer', 'bolts'];

interface Rule extends Target {
  one: readonly SolidKind[];
  other: readonly SolidKind[];
}

/** The first rule that fits a pair of kinds, in either order, holds. */
const RULES: readonly Rule[] = [
  {
    one: ['caliper'],
    other: ['wheel'],
    mm: 3.175,
    origin: "1/8 in to allow for flex: a tyre retailer's advice, Hot Rod magazine",
  },
  {
    one: ['wheel'],
    other: [...LINKS, ...DAMPER, 'upright', 'bearingHousing', 'bolts'],
    mm: 6.35,
    origin: '1/4 in, wheel to any brake or suspension part: vintagewheelworks.com, wheel clearance advice',
  },
  {
    one: ['wheel'],
    other: CHASSIS,
    mm: 25,
    origin: 'as for the tyre; common practice, no source',
  },
  {
    one: ['tyre'],
    other: CHASSIS,
    mm: 25,
    origin:
      '25 mm lock to lock: British Columbia vehicle inspection manual, section 4, as quoted second-hand',
  },
  {
    one: ['tyre'],
    other: [...LINKS, ...DAMPER],
    mm: 10,
    origin: `10 to 25 mm at full bump and lock: ${COMMON}`,
  },
  {
    one: ['rotor'],
    other: ['wheel'],
    mm: 0,
    origin: 'clamped together, and turn together',
  },
  { one: ['rotor'], other: ['caliper'], mm: 2, origin: `2 to 3 mm, rotor to bracket or shield: ${COMMON}` },
  {
    one: ['rotor'],
    other: [...LINKS, ...AT_WHEEL],
    mm: 3,
    origin: `2 to 3 mm, rotor to anything fixed: ${COMMON}`,
  },
  { one: DAMPER, other: LINKS, mm: 5, origin: `5 mm, damper body to arm: ${COMMON}` },
];

/** Two that turn or ride together at the wheel and are drawn close on purpose. */
const AT_WHEEL_DEFAULT: Target = { mm: 2, origin: `2 mm between parts at the wheel: ${COMMON}` };
const DEFAULT: Target = { mm: 5, origin: `5 mm between parts that move: ${COMMON}` };

/** Of a joint's bolt against what holds the joint: where they meet, the joint binds. */
export const BINDS: Target = { mm: 0, origin: 'a joint tilts until its bolt meets its housing' };

/** Of parts that are bolted face to face: beside the clamped faces they must only not meet. */
export const CLAMPED: Target = { mm: 0, origin: 'clamped together: no contact beside the clamped faces' };

/** Of a caliper against the upright that it is bolted to: less than the edges of clamped faces measure beside their zone. */
export const CALIPER_CLAMPED: Target = {
  mm: 0.5,
  origin: '0.5 mm beside the clamped faces of a caliper: common practice, no source',
};

/** The default target of a pair of kinds. `moves`: their carriers move against each other. */
export function defaultTarget(a: SolidKind, b: SolidKind, moves: boolean): Target {
  const rule = RULES.find(
    ({ one, other }) => (one.includes(a) && other.includes(b)) || (one.includes(b) && other.includes(a)),
  );
  if (rule !== undefined) return { mm: rule.mm, origin: rule.origin };
  return moves ? DEFAULT : AT_WHEEL_DEFAULT;
}
