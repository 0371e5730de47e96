/** Figures by which a shop makes a stop: spacer on the rack, damper length, wheel angle and turning circle. */
import type { Corner } from '../../design/schema.ts';
import { alignmentAt } from '../../mechanism/alignment.ts';
import { inputAt } from '../../mechanism/assemble.ts';
import { turningCircleMm } from '../../mechanism/axle.ts';
import { damperLengthMm } from '../../mechanism/damperLength.ts';
import type { Mechanism } from '../../mechanism/mechanism.ts';
import { solvePose } from '../../mechanism/solvePose.ts';
import { mechanismOf, tyreCircle } from '../../sweep/setUp.ts';

/** Number of steers at which the length of a damper is compared. */
const STEERS = 9;
/** Steps in which a travel is searched for, to either side. */
const TRAVEL_STEPS = 50;
/** Far below what anyone measures, mm. */
const LENGTH_TOLERANCE_MM = 1e-6;

const steers = (): number[] => Array.from({ length: STEERS }, (_, i) => (2 * i) / (STEERS - 1) - 1);

/** Length of the damper at a pose, mm; undefined without a damper, or if the pose is not reached. */
function lengthAt(mechanism: Mechanism, travelMm: number, steer: number): number | undefined {
  const pose = solvePose(mechanism, travelMm, steer);
  return mechanism.damper && pose.kind === 'solved'
    ? damperLengthMm(pose.carriers, mechanism.damper)
    : undefined;
}

/**
 * Length between the damper's mounts at which a stop keeps the wheel within a travel at every lock of the corner, mm: of a
 * bump stop, the longest over the lock; of a strap in droop, the shortest. Compared at 9 steers. Undefined without a
 * damper, or if a pose is not reached.
 */
export function damperStopMm(corner: Corner, travelMm: number): number | undefined {
  const mechanism = mechanismOf(corner);
  const lengths = steers().map((steer) => lengthAt(mechanism, travelMm, steer));
  const known = lengths.filter((length) => length !== undefined);
  if (known.length < lengths.length) return undefined;
  return travelMm > 0 ? Math.max(...known) : Math.min(...known);
}

/** Wheel travel at a length of the damper, mm. */
export interface StoppedTravel {
  /** Straight ahead. */
  straightMm: number;
  /** The least and the most over the lock. */
  lowestMm: number;
  highestMm: number;
}

/**
 * The travel at which the damper has a length between its mounts, as a solid bump stop or a tight strap sets it: straight
 * ahead, and the range over 9 steers. Searched up to twice the whole travel from ride height. Undefined without a damper, and
 * if the damper does not have that length there.
 */
export function travelAtDamperLength(corner: Corner, lengthMm: number): StoppedTravel | undefined {
  const mechanism = mechanismOf(corner);
  const { bump, droop } = corner.suspension.travel;
  const travelAt = (steer: number) =>
    crossing((travel) => lengthAt(mechanism, travel, steer), lengthMm, 2 * (bump + droop));
  const travels = steers().map(travelAt);
  const known = travels.filter((travel) => travel !== undefined);
  const straightMm = travelAt(0);
  return straightMm === undefined || known.length < travels.length
    ? undefined
    : { straightMm, lowestMm: Math.min(...known), highestMm: Math.max(...known) };
}

/**
 * The place nearest to 0, within a distance of it, at which a function has a value; undefined if it has it nowhere. The
 * search ends on a side where the function ends.
 */
function crossing(
  valueAt: (x: number) => number | undefined,
  value: number,
  within: number,
): number | undefined {
  const step = within / TRAVEL_STEPS;
  const start = valueAt(0);
  const sides = [1, -1].map((sign) => ({ sign, before: start }));
  for (let i = 1; i <= TRAVEL_STEPS; i++)
    for (const side of sides) {
      const { sign, before } = side;
      if (before === undefined) continue;
      const after = valueAt(sign * i * step);
      if (after !== undefined && (before - value) * (after - value) <= 0) {
        let [a, b] = [(i - 1) * step, i * step];
        while (b - a > LENGTH_TOLERANCE_MM) {
          const middle = (a + b) / 2;
          if (((valueAt(sign * middle) ?? value) - value) * (before - value) > 0) a = middle;
          else b = middle;
        }
        return (sign * (a + b)) / 2;
      }
      side.before = after;
    }
  return undefined;
}

/** Wheel angle at ride height at a lock, degrees from straight ahead, above 0; undefined if it is not reached. */
export function lockAngleDeg(corner: Corner, lock: 'outboard' | 'inboard'): number | undefined {
  const mechanism = mechanismOf(corner);
  const pose = solvePose(mechanism, 0, lock === 'outboard' ? 1 : -1);
  return pose.kind === 'solved'
    ? Math.abs(alignmentAt(mechanism, pose, tyreCircle(corner)).roadWheelAngleDeg)
    : undefined;
}

/**
 * Turning circle, mm (`turningCircleMm`), of a vehicle with this corner on the left and its mirror image on the right: the
 * steering moves as far to each side as both corners allow. Undefined without a wheelbase, or if the lock is not reached.
 */
export function lockCircleMm(corner: Corner): number | undefined {
  const { wheelbase } = corner.vehicle ?? {};
  const mechanism = mechanismOf(corner);
  const [outboard, inboard] = [1, -1].map((steer) => Math.abs(inputAt(mechanism, steer)));
  if (wheelbase === undefined || inboard === 0 || outboard === 0) return undefined;
  const pose = solvePose(mechanism, 0, -Math.min(1, outboard / inboard));
  return pose.kind === 'solved' ? turningCircleMm(mechanism, pose, tyreCircle(corner), wheelbase) : undefined;
}
