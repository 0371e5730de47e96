/**
 * Follows the assembly branch. A pose is reached in strides from a pose on the branch. Each stride is short enough to
 * prove that the branch does not end in between. The members of a closure must not come in line, where the mechanism
 * could fold over into its other branch. The wheel centre must not turn back. A stride that
 * does not prove this is halved. So strides shrink toward an end of the branch and never pass it.
 */
import { bracketedNewton, type Sample } from '../math/rootFinding.ts';
import {
  LEAST_INPUT_STRIDE,
  LEAST_STRIDE_RAD,
  LONGEST_STEERING_STRIDE_RAD,
  LONGEST_STRIDE_RAD,
  TRAVEL_LIMIT_MM,
  TRAVEL_TOLERANCE_MM,
} from '../math/tolerances.ts';
import { type Assembly, assemble } from './assemble.ts';
import type { Mechanism } from './prepared.ts';

export interface FollowResult {
  /** The last assembly on the branch: the requested one, or the end of the branch before it. */
  at: Assembly;
  reached: boolean;
  /** Number of assemblies computed. */
  evaluations: number;
}

/**
 * Whether a cosine stays within +-1 over a stride: the larger end value plus twice the bulge of a parabola with the
 * same change of slope.
 */
const staysOffLine = (c0: number, rate0: number, c1: number, rate1: number): boolean =>
  Math.max(Math.abs(c0), Math.abs(c1)) + Math.abs(rate1 - rate0) / 4 < 1;

/** Whether no closure comes in line over a stride of the arm and the steering input. */
function closuresStayOpen(a: Assembly, b: Assembly, armRad: number, input: number): boolean {
  const before = a.closures;
  const after = b.closures;
  for (let k = 0; k < before.length; k++) {
    const one = before[k];
    const other = after[k];
    const rateOne = one.armRate * armRad + one.inputRate * input;
    const rateOther = other.armRate * armRad + other.inputRate * input;
    if (!staysOffLine(one.cosine, rateOne, other.cosine, rateOther)) return false;
  }
  return true;
}

/** Allowed difference between the rise over a stride and the rise from its end slopes, as a share of the latter. */
const SLOPE_MISFIT = 0.1;

function joinedByArm(m: Mechanism, a: Assembly, b: Assembly): boolean {
  const stride = b.armRad - a.armRad;
  const rise = b.riseMm - a.riseMm;
  const bySlopes = ((a.riseRateMm + b.riseRateMm) / 2) * stride;
  return (
    b.riseRateMm * m.bumpSense > 0 &&
    Math.abs(rise - bySlopes) <= SLOPE_MISFIT * Math.abs(bySlopes) + TRAVEL_TOLERANCE_MM &&
    closuresStayOpen(a, b, stride, 0)
  );
}

const joinedBySteering = (m: Mechanism, a: Assembly, b: Assembly): boolean =>
  b.riseRateMm * m.bumpSense > 0 && closuresStayOpen(a, b, 0, b.input - a.input);

/** Allowed change of the rise per radian of the arm over a stride at constant travel, as a share. */
const RATE_CHANGE = 0.5;

/** Like `joinedBySteering`, but the arm turns too. */
function joinedLevel(a: Assembly, b: Assembly): boolean {
  const turnRad = b.armRad - a.armRad;
  return (
    Math.abs(turnRad) <= LONGEST_STRIDE_RAD &&
    Math.abs(b.riseRateMm - a.riseRateMm) <= RATE_CHANGE * Math.abs(a.riseRateMm) &&
    closuresStayOpen(a, b, turnRad, b.input - a.input)
  );
}

/** Moves the steering input to `input` with the arm fixed. */
export const followSteering = (m: Mechanism, from: Assembly, input: number): FollowResult =>
  followSteeringBy(m, from, input, (at, nextInput) => {
    const next = assemble(m, at.armRad, nextInput);
    return { next: next !== undefined && joinedBySteering(m, at, next) ? next : undefined, evaluations: 1 };
  });

/**
 * Moves the steering input to `input` with the wheel centre at `travelMm`, which is the travel of `from`. The arm
 * compensates the rise or fall from steering.
 */
export const followSteeringAtTravel = (
  m: Mechanism,
  from: Assembly,
  input: number,
  travelMm: number,
): FollowResult =>
  followSteeringBy(m, from, input, (at, nextInput) => {
    const { assembly, evaluations } = levelAt(m, at, nextInput, travelMm);
    return {
      next: assembly !== undefined && joinedLevel(at, assembly) ? assembly : undefined,
      evaluations,
    };
  });

/** Moves the steering input in strides. `stepTo` returns the assembly after one stride; undefined if the stride is too long. */
function followSteeringBy(
  m: Mechanism,
  from: Assembly,
  input: number,
  stepTo: (at: Assembly, input: number) => { next: Assembly | undefined; evaluations: number },
): FollowResult {
  const longest = LONGEST_STEERING_STRIDE_RAD * m.linkage.inputPerRad;
  let at = from;
  let limit = longest;
  let evaluations = 0;
  while (at.input !== input) {
    const rest = input - at.input;
    const stride = Math.min(Math.abs(rest), limit);
    const nextInput = stride < Math.abs(rest) ? at.input + Math.sign(rest) * stride : input;
    const step = stepTo(at, nextInput);
    evaluations += step.evaluations;
    if (step.next !== undefined) {
      at = step.next;
      limit = Math.min(2 * limit, longest);
    } else {
      limit = stride / 2;
      if (limit < LEAST_INPUT_STRIDE) return { at, reached: false, evaluations };
    }
  }
  return { at, reached: true, evaluations };
}

/** If Newton's method needs more steps than this, the stride is too long. */
const MAX_STEPS = 8;

/**
 * The assembly at a steering input and the given travel, by Newton's method with the slopes of a nearby assembly.
 */
function levelAt(
  m: Mechanism,
  from: Assembly,
  input: number,
  travelMm: number,
): { assembly: Assembly | undefined; evaluations: number } {
  let armRad = from.armRad - (from.riseInputRate * (input - from.input)) / from.riseRateMm;
  let assembly: Assembly | undefined;
  for (let step = 1; step <= MAX_STEPS; step++) {
    assembly = assemble(m, armRad, input);
    if (assembly === undefined) return { assembly, evaluations: step };
    const restMm = travelMm - assembly.riseMm;
    if (Math.abs(restMm) <= TRAVEL_TOLERANCE_MM) return { assembly, evaluations: step };
    armRad += restMm / assembly.riseRateMm;
  }
  const held = assembly !== undefined && Math.abs(assembly.riseMm - travelMm) <= TRAVEL_LIMIT_MM;
  return { assembly: held ? assembly : undefined, evaluations: MAX_STEPS };
}

interface TravelSample extends Sample {
  assembly: Assembly;
}

/** Turns the arm until the wheel centre has risen by `travelMm`, with the steering input fixed. */
export function followTravel(m: Mechanism, from: Assembly, travelMm: number): FollowResult {
  const sampleOf = (assembly: Assembly): TravelSample => ({
    x: assembly.armRad,
    value: assembly.riseMm - travelMm,
    slope: assembly.riseRateMm,
    assembly,
  });
  let evaluations = 0;
  const assembleAt = (armRad: number): Assembly | undefined => {
    evaluations++;
    return assemble(m, armRad, from.input);
  };
  let at = from;
  let limit = LONGEST_STRIDE_RAD;
  while (Math.abs(at.riseMm - travelMm) > TRAVEL_TOLERANCE_MM) {
    const newton = (travelMm - at.riseMm) / at.riseRateMm;
    const stride = Math.min(Math.abs(newton), limit);
    const next = assembleAt(at.armRad + Math.sign(newton) * stride);
    if (next === undefined || !joinedByArm(m, at, next)) {
      limit = stride / 2;
      if (limit < LEAST_STRIDE_RAD) return { at, reached: false, evaluations };
      continue;
    }
    if ((at.riseMm - travelMm) * (next.riseMm - travelMm) < 0) {
      const root = bracketedNewton(
        (x) => {
          const assembly = assembleAt(x);
          return assembly && sampleOf(assembly);
        },
        sampleOf(at),
        sampleOf(next),
        TRAVEL_TOLERANCE_MM,
      );
      at = root?.assembly ?? at;
      break;
    }
    if (next.armRad === at.armRad) break;
    at = next;
    limit = Math.min(2 * limit, LONGEST_STRIDE_RAD);
  }
  return { at, reached: Math.abs(at.riseMm - travelMm) <= TRAVEL_LIMIT_MM, evaluations };
}
