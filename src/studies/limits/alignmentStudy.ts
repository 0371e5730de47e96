/** Alignment of a corner over travel and steering: every figure at every step, from the mechanism alone. */
import type { Corner } from '../../design/schema.ts';
import { layoutOf } from '../../layouts/layoutOf.ts';
import { lockOf } from '../../layouts/steering.ts';
import { alignmentAt } from '../../mechanism/alignment.ts';
import { type AlignmentRates, alignmentRates } from '../../mechanism/alignmentRates.ts';
import {
  ackermannPercent,
  antiDivePercent,
  type SteerAngles,
  steerAngles,
  turningCircleMm,
} from '../../mechanism/axle.ts';
import type { Alignment } from '../../mechanism/pose.ts';
import { solvePose } from '../../mechanism/solvePose.ts';
import { mechanismOf, tyreCircle } from '../../sweep/setUp.ts';

/** All figures of the left corner at one pose. Signs as in `Alignment` and `AlignmentRates`. */
export interface PoseFigures extends Alignment {
  /** Motion of the wheel centre rearward from ride height, straight ahead, mm. */
  wheelRecessionMm: number;
  /** Undefined where the mechanism does not move on to both sides. */
  rates: AlignmentRates | undefined;
  /** Undefined straight ahead, and where the other wheel does not reach the opposite steering input. */
  angles: SteerAngles | undefined;
  /** Undefined without `angles` or without a wheelbase in the file. */
  ackermannPercent: number | undefined;
  /** With this wheel outside the turn; undefined if it is not, and without a wheelbase in the file. */
  turningCircleMm: number | undefined;
  /** Undefined unless the file has wheelbase, brake share and height of the centre of gravity. */
  antiDivePercent: number | undefined;
}

export interface AlignmentStep {
  travelMm: number;
  /** -1 to +1 of lock; positive turns the front edge outboard. */
  steer: number;
  /** Undefined if the pose is not reached. */
  figures: PoseFigures | undefined;
  /** Why the pose is not reached. */
  reason: string | undefined;
}

export interface AlignmentStudy {
  /** Steps of travel from droop to bump, mm. */
  travelMm: readonly number[];
  /** Steps of steer from inboard to outboard. */
  steer: readonly number[];
  /** A step is `travelIndex * steer.length + steerIndex`. */
  steps: readonly AlignmentStep[];
}

/** Usual step of travel and rack: 25 mm, or 1 in in a file in inches. */
export const EVERY_MM = { mm: 25, in: 25.4 } as const;
/** Step of a steering input that is an angle, degrees. */
const INPUT_STEP_DEG = 10;
/** Rounding of Float64, in steps. */
const NOISE = 1e-6;
/** Largest number of steps in one direction. */
const MOST_ALIGNMENT_STEPS = 401;

/**
 * The alignment at multiples of `everyMm` of travel and of steering input (of 10° if the input is an angle), and at the
 * ends of both. Throws DesignProblems if the mechanism cannot be built, and a RangeError if `everyMm` gives more than
 * `MOST_ALIGNMENT_STEPS` steps.
 */
export function alignmentOver(corner: Corner, everyMm: number): AlignmentStudy {
  const { suspension } = corner;
  const { bump, droop } = suspension.travel;
  const [inboard, outboard] = [lockOf(suspension, 'inboard'), lockOf(suspension, 'outboard')];
  const isLength = layoutOf(suspension).steering.quantity === 'length';
  const inputs = multiplesBetween(-inboard, outboard, isLength ? everyMm : INPUT_STEP_DEG);
  const travelMm = multiplesBetween(-droop, bump, everyMm);
  const steer = inputs.map((input) => (input === 0 ? 0 : input / (input > 0 ? outboard : inboard)));
  const figuresAt = figuresOf(corner);
  return {
    travelMm,
    steer,
    steps: travelMm.flatMap((travel) => steer.map((lock) => figuresAt(travel, lock))),
  };
}

/** Returns a function that gives the figures of a corner at a travel and steer. Throws DesignProblems if it cannot be built. */
function figuresOf(corner: Corner): (travelMm: number, steer: number) => AlignmentStep {
  const mechanism = mechanismOf(corner);
  const tyre = tyreCircle(corner);
  const { wheelbase, frontBrakePercent, centreOfGravityHeight } = corner.vehicle ?? {};
  const restX = corner.suspension.hardpoints.wheelCentre[0];
  return (travelMm, steer) => {
    const pose = solvePose(mechanism, travelMm, steer);
    if (pose.kind !== 'solved') return { travelMm, steer, figures: undefined, reason: pose.reason };
    const alignment = alignmentAt(mechanism, pose, tyre);
    const rates = alignmentRates(mechanism, pose, tyre);
    const angles = steerAngles(mechanism, pose, tyre);
    const isBrakingKnown =
      wheelbase !== undefined && frontBrakePercent !== undefined && centreOfGravityHeight !== undefined;
    const figures: PoseFigures = {
      ...alignment,
      wheelRecessionMm: restX - alignment.wheelCentreMm[0],
      rates,
      angles,
      ackermannPercent: angles && wheelbase && ackermannPercent(angles, wheelbase),
      turningCircleMm: steer < 0 && wheelbase ? turningCircleMm(mechanism, pose, tyre, wheelbase) : undefined,
      antiDivePercent:
        isBrakingKnown && rates
          ? antiDivePercent(rates.contactForwardPerRise, {
              frontBrakeShare: frontBrakePercent / 100,
              wheelbaseMm: wheelbase,
              centreOfGravityMm: centreOfGravityHeight,
            })
          : undefined,
    };
    return { travelMm, steer, figures, reason: undefined };
  };
}

/** The multiples of a step between two values, and the two values. */
function multiplesBetween(low: number, high: number, step: number): number[] {
  const [first, last] = [Math.ceil(low / step), Math.floor(high / step)];
  if (last - first + 3 > MOST_ALIGNMENT_STEPS)
    throw new RangeError(
      `a step of ${step} gives ${last - first + 1} steps from ${low} to ${high}; at most ${MOST_ALIGNMENT_STEPS} are allowed`,
    );
  const within = Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step);
  // A multiple that differs from an end by the rounding of Float64 alone is that end.
  const inside = within.filter((value) => value - low > NOISE * step && high - value > NOISE * step);
  const ends = low === high ? [low] : [low, high];
  return [...inside, ...ends].map((value) => value + 0).sort((a, b) => a - b);
}
