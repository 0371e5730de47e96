import type { JointPlace, Suspension } from '../../../design/schema.ts';
import { layoutOf } from '../../../layouts/layoutOf.ts';
import type { NewJoint, NewPoints } from '../../../layouts/newCorner.ts';
import { normalize, sub, type Vec3 } from '../../../math/vec.ts';
import { USUAL_JOINT } from '../../../parts/joint/workbench.ts';
import { USUAL_UPRIGHT } from '../../../parts/upright/workbench.ts';
import type { LengthUnit } from '../../../report/figures.ts';
import { jointOf, memberEnd } from '../../../solids/jointPlace.ts';
import { degToRad, radToDeg } from '../../../units/angle.ts';
import { ballForTilt, damperLengths, neededTiltDeg } from '../../state/usualLimits.ts';
import { roundMm, roundUpMm, stepMm } from './guess.ts';
import { START } from './questions.ts';
import type { Sizes } from './sizes.ts';

/** Dimensions of a joint, mm; `boltLength` runs to the far face of the upright's boss. */
export interface JointDimensions {
  ballDiameter: number;
  housingDiameter: number;
  housingWidth: number;
  boltDiameter: number;
  boltLength: number;
}

/** Dimensions of a new corner that follow from the tilt of its joints and the stroke of its damper, mm. */
export interface NewFit {
  joints: Readonly<Record<JointPlace, JointDimensions>>;
  /** Cup and tubes of each arm. */
  arms: Readonly<Record<string, { tubeDiameter: number; cupDiameter: number; cupHeight: number }>>;
  /** Bosses of the upright. */
  jointMounts: { diameter: number; height: number };
  jointGap: number;
  legWidth: number;
  /** Radius from the wheel axis at which the upright's legs leave the plane of its pad. */
  kickOutRadius: number;
  damper: { closedLength: number; openLength: number } | undefined;
}

/** Usual sizes, mm: common practice, no source. */
const CUP_WALLS_MM = 8;
const CUP_OVER_HOUSING_MM = 4;
/** Radius at which a leg leaves the pad's plane: largest, largest share of the joint's radius, and least. */
const KICK_OUT = { mostMm: USUAL_UPRIGHT.kickOutRadius, mostShare: 0.62, leastMm: 10 };
const INNER_BOLT_LENGTH_MM = 50;
export const SHANK_MM = { diameter: 16, length: 42 };
/** Gap between a boss and the member of its joint, mm: slightly more than the target of moving parts. */
const BOSS_CLEAR_MM = 6;

/** Direction of a joint's bolt if the layout does not give it, vehicle axes. */
const UPRIGHT_BOLT: Vec3 = [0, 0, 1];

/** Dimensions in whole mm or eighths of an inch, large enough for the travel and lock of `sizes`. */
export function newFit(sizes: Sizes, points: NewPoints, unit: LengthUnit): NewFit {
  const suspension = suspensionOf(sizes, points);
  const { diameter, height } = USUAL_UPRIGHT.jointMounts;
  const jointMounts = { diameter: roundMm(diameter, unit), height: roundMm(height, unit) };
  const tilting = ({ at, form, bolt = UPRIGHT_BOLT }: NewJoint) => {
    const { walls, boltDiameter: boltMm } = USUAL_JOINT[form];
    const tiltDeg = neededTiltDeg(suspension, { at, form, boltDirection: [...bolt] });
    const boltDiameter = roundMm(boltMm, unit);
    const ball = ballForTilt(tiltDeg, boltDiameter, stepMm(unit));
    const housingDiameter = ball.ballDiameter + roundUpMm(walls, unit);
    return { at, form, tiltDeg, dimensions: { ...ball, housingDiameter, boltDiameter } };
  };
  const joints = START.joints.map(tilting);
  const { arms: layoutArms } = layoutOf(suspension);
  const arms = START.arms.map(({ arm }) => {
    const { joint: place, usual } = layoutArms[arm];
    const held = joints.find(({ at }) => at === place);
    if (held === undefined) throw new Error(`a new corner has no joint at ${place}`);
    const { housingDiameter, housingWidth } = held.dimensions;
    const cup = {
      tubeDiameter: roundMm(usual.tubeDiameter, unit),
      cupDiameter: housingDiameter + roundUpMm(CUP_WALLS_MM, unit),
      cupHeight: housingWidth + roundMm(CUP_OVER_HOUSING_MM, unit),
    };
    return { arm, place, cup };
  });
  /** Thickness of the member at a joint, along the upright's bolt. */
  const memberMm = ({ at, dimensions }: (typeof joints)[number]) => {
    const cup = arms.find(({ place }) => place === at)?.cup;
    return cup === undefined
      ? Math.max(dimensions.housingWidth, SHANK_MM.diameter)
      : Math.max(cup.cupHeight, cup.tubeDiameter);
  };
  const onUpright = joints.filter(({ at }) => jointOf({ suspension }, at).bolt === 'upright');
  const jointGap = roundUpMm(
    Math.max(
      ...onUpright.map((joint) =>
        gapOver(memberMm(joint), joint.tiltDeg + leanDeg(suspension, joint.at), jointMounts.diameter),
      ),
    ),
    unit,
  );
  const flushMm = 2 * (jointGap + jointMounts.height);
  const legWidth = roundMm(USUAL_UPRIGHT.legWidth, unit);
  const lengths = damperLengths(suspension);
  return {
    joints: Object.fromEntries(
      joints.map((joint) => {
        const boltLength = onUpright.includes(joint) ? flushMm : roundMm(INNER_BOLT_LENGTH_MM, unit);
        return [joint.at, { ...joint.dimensions, boltLength }];
      }),
    ),
    arms: Object.fromEntries(arms.map(({ arm, cup }) => [arm, cup])),
    jointMounts,
    jointGap,
    legWidth,
    kickOutRadius: roundMm(kickOutMm(points, jointGap, legWidth), unit),
    damper: lengths && {
      closedLength: roundMm(lengths.closedMm, unit),
      openLength: roundMm(lengths.openMm, unit),
    },
  };
}

/** Kick-out radius at which both legs stay between the wheel axis and their bosses, clear of the joints, mm. */
function kickOutMm({ hardpoints }: NewPoints, jointGap: number, legWidth: number): number {
  const { lower, upper } = layoutOf({ layout: START.name }).kingpin;
  const most = [lower, upper].flatMap((joint) => {
    const [x, , z] = sub(hardpoints[joint], hardpoints.wheelCentre);
    const radius = Math.hypot(x, z);
    const beyondLean = (legWidth / 2) * (Math.abs(x) / radius);
    return [KICK_OUT.mostShare * radius, Math.abs(z) - jointGap - beyondLean];
  });
  return Math.max(KICK_OUT.leastMm, Math.min(KICK_OUT.mostMm, ...most));
}

function suspensionOf({ bump, droop, own }: Sizes, points: NewPoints): Suspension {
  const typed = (p: Vec3): [number, number, number] => [...p];
  return {
    layout: START.name,
    hardpoints: Object.fromEntries(
      Object.entries(points.hardpoints).map(([name, p]) => [name, typed(p)]),
    ) as Suspension['hardpoints'],
    damper: {
      chassisMount: typed(points.chassisMount),
      armMount: typed(points.armMount),
      on: START.damperOn,
    },
    camberDeg: 0,
    toeDeg: 0,
    travel: { bump, droop },
    steering: {
      ...START.steering.fixed,
      ...Object.fromEntries(Object.entries(START.steering.asked).map(([field, key]) => [field, own[key]])),
    },
  };
}

/** Angle between a member and the plane square to the upright's bolt at ride height, degrees. */
function leanDeg(suspension: Suspension, at: JointPlace): number {
  const [, , rise] = normalize(sub(memberEnd({ suspension }, at), suspension.hardpoints[at]));
  return radToDeg(Math.asin(Math.abs(rise)));
}

/** Distance of a boss from its joint at which a bar through the joint, leaning toward the boss, clears its edge, mm. */
function gapOver(barMm: number, leanDegrees: number, bossDiameterMm: number): number {
  const lean = degToRad(leanDegrees);
  return (barMm / 2 + BOSS_CLEAR_MM) / Math.cos(lean) + (bossDiameterMm / 2) * Math.tan(lean);
}
