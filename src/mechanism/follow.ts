/**
 * Following the assembly branch. A pose is reached by strides from a pose known to be on the branch, each small enough
 * to show that nothing ended in between: neither did upper arm and kingpin, or tie rod and steering arm, come in line
 * (where the mechanism could fold over into its other branch), nor did the wheel centre turn back. A stride that does
 * not show it is halved, so that strides shrink toward an end of the branch and never pass one.
 */
import { bracketedNewton, type Sample } from '../math/rootFinding.ts';
import {
  LEAST_STRIDE_MM,
  LEAST_STRIDE_RAD,
  LONGEST_STRIDE_OF_STEERING_ARM,
  LONGEST_STRIDE_RAD,
  TRAVEL_LIMIT_MM,
  TRAVEL_TOLERANCE_MM,
} from '../math/tolerances.ts';
import { type Assembly, assemble } from './assemble.ts';
import type { Mechanism } from './linkage.ts';

export interface Followed {
  /** The last assembly on the branch: the one asked for, or the end of the branch before it. */
  at: Assembly;
  reached: boolean;
  /** Assemblies computed. */
  evaluations: number;
}

/**
 * Whether a cosine stays within +-1 over a stride: its larger end, raised by twice what a curve bends away from a
 * straight line whose slope changes by as much as this one's does.
 */
const staysOffLine = (c0: number, rate0: number, c1: number, rate1: number, stride: number): boolean =>
  Math.max(Math.abs(c0), Math.abs(c1)) + Math.abs((rate1 - rate0) * stride) / 4 < 1;

/** The share of the rise over a stride by which its end slopes may fail to account for it. */
const SLOPE_MISFIT = 0.1;

function joinedByArm(m: Mechanism, a: Assembly, b: Assembly): boolean {
  const stride = b.lowerArmRad - a.lowerArmRad;
  const rise = b.riseMm - a.riseMm;
  const bySlopes = ((a.riseRateMm + b.riseRateMm) / 2) * stride;
  return (
    b.riseRateMm * m.bumpSense > 0 &&
    Math.abs(rise - bySlopes) <= SLOPE_MISFIT * Math.abs(bySlopes) + TRAVEL_TOLERANCE_MM &&
    staysOffLine(a.upperCosine, a.upperCosineRate, b.upperCosine, b.upperCosineRate, stride) &&
    staysOffLine(a.tieRodCosine, a.tieRodCosineRate, b.tieRodCosine, b.tieRodCosineRate, stride)
  );
}

const joinedByRack = (m: Mechanism, a: Assembly, b: Assembly): boolean =>
  b.riseRateMm * m.bumpSense > 0 &&
  staysOffLine(
    a.tieRodCosine,
    a.tieRodCosineRackRate,
    b.tieRodCosine,
    b.tieRodCosineRackRate,
    b.rackMm - a.rackMm,
  );

/** The share by which the rise per radian of the lower arm may change over a stride that holds the travel. */
const RATE_CHANGE = 0.5;

/** As `joinedByRack`, where the lower arm turns as well. */
function joinedLevel(a: Assembly, b: Assembly): boolean {
  const turnRad = b.lowerArmRad - a.lowerArmRad;
  const rackMm = b.rackMm - a.rackMm;
  const tieRodRate = ({ tieRodCosineRate, tieRodCosineRackRate }: Assembly) =>
    tieRodCosineRate * turnRad + tieRodCosineRackRate * rackMm;
  return (
    Math.abs(turnRad) <= LONGEST_STRIDE_RAD &&
    Math.abs(b.riseRateMm - a.riseRateMm) <= RATE_CHANGE * Math.abs(a.riseRateMm) &&
    staysOffLine(a.upperCosine, a.upperCosineRate, b.upperCosine, b.upperCosineRate, turnRad) &&
    staysOffLine(a.tieRodCosine, tieRodRate(a), b.tieRodCosine, tieRodRate(b), 1)
  );
}

/** Moves the rack to `rackMm`, the lower arm held. */
export const followRack = (m: Mechanism, from: Assembly, rackMm: number): Followed =>
  followRackBy(m, from, rackMm, (at, rack) => {
    const next = assemble(m, at.lowerArmRad, rack);
    return { next: next !== undefined && joinedByRack(m, at, next) ? next : undefined, evaluations: 1 };
  });

/**
 * Moves the rack to `rackMm`, the wheel centre held at `travelMm`, where `from` stands: the lower arm makes good what the
 * steering raises or lowers.
 */
export const followRackAtTravel = (
  m: Mechanism,
  from: Assembly,
  rackMm: number,
  travelMm: number,
): Followed =>
  followRackBy(m, from, rackMm, (at, rack) => {
    const { assembly, evaluations } = levelAt(m, at, rack, travelMm);
    return {
      next: assembly !== undefined && joinedLevel(at, assembly) ? assembly : undefined,
      evaluations,
    };
  });

/** Moves the rack in strides; `stepTo` gives the assembly one stride on, undefined where the stride is too long. */
function followRackBy(
  m: Mechanism,
  from: Assembly,
  rackMm: number,
  stepTo: (at: Assembly, rackMm: number) => { next: Assembly | undefined; evaluations: number },
): Followed {
  const longest = LONGEST_STRIDE_OF_STEERING_ARM * m.steeringArm.radiusMm;
  let at = from;
  let limit = longest;
  let evaluations = 0;
  while (at.rackMm !== rackMm) {
    const rest = rackMm - at.rackMm;
    const stride = Math.min(Math.abs(rest), limit);
    const rack = stride < Math.abs(rest) ? at.rackMm + Math.sign(rest) * stride : rackMm;
    const step = stepTo(at, rack);
    evaluations += step.evaluations;
    if (step.next !== undefined) {
      at = step.next;
      limit = Math.min(2 * limit, longest);
    } else {
      limit = stride / 2;
      if (limit < LEAST_STRIDE_MM) return { at, reached: false, evaluations };
    }
  }
  return { at, reached: true, evaluations };
}

/** More of Newton's steps than this: the stride is too long for its start. */
const MOST_STEPS = 8;

/** The assembly at a rack displacement that holds the travel, by Newton's steps along the slopes of another near by. */
function levelAt(
  m: Mechanism,
  from: Assembly,
  rackMm: number,
  travelMm: number,
): { assembly: Assembly | undefined; evaluations: number } {
  let lowerArmRad = from.lowerArmRad - (from.riseRackRate * (rackMm - from.rackMm)) / from.riseRateMm;
  let assembly: Assembly | undefined;
  for (let step = 1; step <= MOST_STEPS; step++) {
    assembly = assemble(m, lowerArmRad, rackMm);
    if (assembly === undefined) return { assembly, evaluations: step };
    const restMm = travelMm - assembly.riseMm;
    if (Math.abs(restMm) <= TRAVEL_TOLERANCE_MM) return { assembly, evaluations: step };
    lowerArmRad += restMm / assembly.riseRateMm;
  }
  const held = assembly !== undefined && Math.abs(assembly.riseMm - travelMm) <= TRAVEL_LIMIT_MM;
  return { assembly: held ? assembly : undefined, evaluations: MOST_STEPS };
}

interface TravelSample extends Sample {
  assembly: Assembly;
}

/** Turns the lower arm until the wheel centre has risen by `travelMm`, the rack held. */
export function followTravel(m: Mechanism, from: Assembly, travelMm: number): Followed {
  const sampleOf = (assembly: Assembly): TravelSample => ({
    x: assembly.lowerArmRad,
    value: assembly.riseMm - travelMm,
    slope: assembly.riseRateMm,
    assembly,
  });
  let evaluations = 0;
  const assembleAt = (lowerArmRad: number): Assembly | undefined => {
    evaluations++;
    return assemble(m, lowerArmRad, from.rackMm);
  };
  let at = from;
  let limit = LONGEST_STRIDE_RAD;
  while (Math.abs(at.riseMm - travelMm) > TRAVEL_TOLERANCE_MM) {
    const newton = (travelMm - at.riseMm) / at.riseRateMm;
    const stride = Math.min(Math.abs(newton), limit);
    const next = assembleAt(at.lowerArmRad + Math.sign(newton) * stride);
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
    if (next.lowerArmRad === at.lowerArmRad) break;
    at = next;
    limit = Math.min(2 * limit, LONGEST_STRIDE_RAD);
  }
  return { at, reached: Math.abs(at.riseMm - travelMm) <= TRAVEL_LIMIT_MM, evaluations };
}
