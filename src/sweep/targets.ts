import { solidFacts } from '../parts/kindOf.ts';
import type { ClearanceClass } from '../parts/partKind.ts';
import type { SolidKind } from '../solids/solid.ts';

/** Target clearance between two kinds of parts and the origin of the figure. A default, never a rule. */
export interface Target {
  mm: number;
  origin: string;
}

const COMMON = 'common practice, no source';
/** Parts fixed to the upright, or clamped by the studs. */
const AT_WHEEL: readonly ClearanceClass[] = ['atHub', 'onStuds', 'rotor'];

interface Rule extends Target {
  one: readonly ClearanceClass[];
  other: readonly ClearanceClass[];
}

/** The first rule that matches the classes of a pair, in either order, applies. */
const RULES: readonly Rule[] = [
  {
    one: ['caliper'],
    other: ['wheel'],
    mm: 3.175,
    origin: "1/8 in to allow for flex: a tyre retailer's advice, Hot Rod magazine",
  },
  {
    one: ['wheel'],
    other: ['link', 'damper', 'atHub'],
    mm: 6.35,
    origin: '1/4 in, wheel to any brake or suspension part: vintagewheelworks.com, wheel clearance advice',
  },
  {
    one: ['wheel'],
    other: ['chassis'],
    mm: 25,
    origin: 'as for the tyre; common practice, no source',
  },
  {
    one: ['tyre'],
    other: ['chassis'],
    mm: 25,
    origin:
      '25 mm lock to lock: British Columbia vehicle inspection manual, section 4, as quoted second-hand',
  },
  {
    one: ['tyre'],
    other: ['link', 'damper'],
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
    other: ['link', ...AT_WHEEL],
    mm: 3,
    origin: `2 to 3 mm, rotor to anything fixed: ${COMMON}`,
  },
  { one: ['damper'], other: ['link'], mm: 5, origin: `5 mm, damper body to arm: ${COMMON}` },
];

/** Default for two parts that move together at the wheel, which are designed close to each other. */
const AT_WHEEL_DEFAULT: Target = { mm: 2, origin: `2 mm between parts at the wheel: ${COMMON}` };
const DEFAULT: Target = { mm: 5, origin: `5 mm between parts that move: ${COMMON}` };

/** Target of a joint's bolt and the part that holds the joint: if they meet, the joint binds. */
export const BINDS: Target = { mm: 0, origin: 'a joint tilts until its bolt meets its housing' };

/** Parts bolted face to face must not touch beside the clamped faces. */
export const CLAMPED: Target = { mm: 0, origin: 'clamped together: no contact beside the clamped faces' };

/**
 * Target of a caliper and the upright that it is bolted to, smaller than the clearance at the edges of the clamped
 * faces.
 */
export const CALIPER_CLAMPED: Target = {
  mm: 0.5,
  origin: '0.5 mm beside the clamped faces of a caliper: common practice, no source',
};

/** The default target of a pair of kinds. `moves`: whether their carriers move relative to each other. */
export function defaultTarget(a: SolidKind, b: SolidKind, moves: boolean): Target {
  const [classA, classB] = [solidFacts(a).clearance, solidFacts(b).clearance];
  const rule = RULES.find(
    ({ one, other }) =>
      (one.includes(classA) && other.includes(classB)) || (one.includes(classB) && other.includes(classA)),
  );
  if (rule !== undefined) return { mm: rule.mm, origin: rule.origin };
  return moves ? DEFAULT : AT_WHEEL_DEFAULT;
}
