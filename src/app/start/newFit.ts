import type { JointPlace, Suspension } from '../../design/schema.ts';
import { normalize, sub, type Vec3 } from '../../math/vec.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { memberEnd } from '../../solids/jointPlace.ts';
import { degToRad, radToDeg } from '../../units/angle.ts';
import { ballForTilt, damperLengths, HOUSING_WALLS_MM, neededTiltDeg } from '../bench/usualLimits.ts';
import { roundMm, roundUpMm, stepMm } from './guess.ts';
import type { NewPoints } from './newPoints.ts';
import type { Sizes } from './sizes.ts';

/** Where a new corner has a joint. */
export type NewJointPlace = Extract<JointPlace, 'lowerJoint' | 'upperJoint' | 'tieRodOuter' | 'tieRodInner'>;

/** Dimensions of a joint, mm; `boltLength` runs to the far face of the upright's boss. */
export interface NewJoint {
  ballDiameter: number;
  housingDiameter: number;
  housingWidth: number;
  boltDiameter: number;
  boltLength: number;
}

/** Dimensions of a new corner that follow from how far its joints tilt and its damper moves, mm. */
export interface NewFit {
  joints: Readonly<Record<NewJointPlace, NewJoint>>;
  /** Of the arms, about their joints. */
  cups: Readonly<Record<'lower' | 'upper', { cupDiameter: number; cupHeight: number }>>;
  tubeDiameter: Readonly<Record<'lower' | 'upper', number>>;
  /** Of the upright's bosses. */
  jointMounts: { diameter: number; height: number };
  jointGap: number;
  legWidth: number;
  /** Radius from the wheel axis at which the upright's legs leave the plane of its pad. */
  kickOutRadius: number;
  damper: { closedLength: number; openLength: number } | undefined;
}

/** Usual sizes, mm: common practice, no source. */
const TUBE_MM = { lower: 28, upper: 24 };
const BOSS_MM = { diameter: 36, height: 20 };
const CUP_WALLS_MM = 8;
const CUP_OVER_HOUSING_MM = 4;
const LEG_WIDTH_MM = 50;
/** Where a leg leaves the pad's plane: at most, of the way to its joint at most, and no nearer to the wheel axis. */
const KICK_OUT = { mostMm: 78, mostShare: 0.62, leastMm: 10 };
const INNER_BOLT_LENGTH_MM = 50;
export const SHANK_MM = { diameter: 16, length: 42 };
const KIND = {
  cup: { form: 'cup', bolt: 14, walls: HOUSING_WALLS_MM },
  rodEnd: { form: 'rodEnd', bolt: 12, walls: 10 },
} as const;
/** Between a boss and the member of its joint, mm: what is wanted between parts that move, and a little more. */
const BOSS_CLEAR_MM = 6;

/** Direction of the bolt at the rack, vehicle axes: fore and aft. */
export const RACK_BOLT: Vec3 = [1, 0, 0];

/** Dimensions in whole mm or eighths of an inch, large enough for the travel and lock of `sizes`. */
export function newFit(sizes: Sizes, points: NewPoints, unit: LengthUnit): NewFit {
  const suspension = suspensionOf(sizes, points);
  const jointMounts = { diameter: roundMm(BOSS_MM.diameter, unit), height: roundMm(BOSS_MM.height, unit) };
  const tubeDiameter = { lower: roundMm(TUBE_MM.lower, unit), upper: roundMm(TUBE_MM.upper, unit) };
  const tilting = (at: NewJointPlace, { form, bolt, walls }: (typeof KIND)['cup' | 'rodEnd']) => {
    const boltDirection: Vec3 = at === 'tieRodInner' ? RACK_BOLT : [0, 0, 1];
    const tiltDeg = neededTiltDeg(suspension, { at, form, boltDirection: [...boltDirection] });
    const boltDiameter = roundMm(bolt, unit);
    const ball = ballForTilt(tiltDeg, boltDiameter, stepMm(unit));
    const housingDiameter = ball.ballDiameter + roundUpMm(walls, unit);
    return { at, tiltDeg, dimensions: { ...ball, housingDiameter, boltDiameter } };
  };
  const lower = tilting('lowerJoint', KIND.cup);
  const upper = tilting('upperJoint', KIND.cup);
  const outer = tilting('tieRodOuter', KIND.rodEnd);
  const inner = tilting('tieRodInner', KIND.rodEnd);
  const cup = ({ dimensions: { housingDiameter, housingWidth } }: typeof lower) => ({
    cupDiameter: housingDiameter + roundUpMm(CUP_WALLS_MM, unit),
    cupHeight: housingWidth + roundMm(CUP_OVER_HOUSING_MM, unit),
  });
  const cups = { lower: cup(lower), upper: cup(upper) };
  const over = (joint: typeof lower, thicknessMm: number) =>
    gapOver(thicknessMm, joint.tiltDeg + leanDeg(suspension, joint.at), jointMounts.diameter);
  const jointGap = roundUpMm(
    Math.max(
      over(lower, Math.max(cups.lower.cupHeight, tubeDiameter.lower)),
      over(upper, Math.max(cups.upper.cupHeight, tubeDiameter.upper)),
      over(outer, Math.max(outer.dimensions.housingWidth, SHANK_MM.diameter)),
    ),
    unit,
  );
  const flush = { boltLength: 2 * (jointGap + jointMounts.height) };
  const legWidth = roundMm(LEG_WIDTH_MM, unit);
  const lengths = damperLengths(suspension);
  return {
    joints: {
      lowerJoint: { ...lower.dimensions, ...flush },
      upperJoint: { ...upper.dimensions, ...flush },
      tieRodOuter: { ...outer.dimensions, ...flush },
      tieRodInner: { ...inner.dimensions, boltLength: roundMm(INNER_BOLT_LENGTH_MM, unit) },
    },
    cups,
    tubeDiameter,
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

/** The legs stay on the wheel's side of both bosses, so that none stands beside a joint. */
function kickOutMm({ hardpoints }: NewPoints, jointGap: number, legWidth: number): number {
  const { lowerJoint, upperJoint, wheelCentre } = hardpoints;
  const most = [lowerJoint, upperJoint].flatMap((joint) => {
    const [x, , z] = sub(joint, wheelCentre);
    const radius = Math.hypot(x, z);
    const beyondLean = (legWidth / 2) * (Math.abs(x) / radius);
    return [KICK_OUT.mostShare * radius, Math.abs(z) - jointGap - beyondLean];
  });
  return Math.max(KICK_OUT.leastMm, Math.min(KICK_OUT.mostMm, ...most));
}

function suspensionOf({ bump, droop, rack }: Sizes, points: NewPoints): Suspension {
  const typed = (p: Vec3): [number, number, number] => [...p];
  const { hardpoints } = points;
  return {
    layout: 'doubleWishboneRack',
    hardpoints: Object.fromEntries(
      Object.entries(hardpoints).map(([name, p]) => [name, typed(p)]),
    ) as Suspension['hardpoints'],
    damper: { chassisMount: typed(points.chassisMount), armMount: typed(points.armMount), on: 'lowerArm' },
    camberDeg: 0,
    toeDeg: 0,
    travel: { bump, droop },
    steering: { rackOutboard: rack, rackInboard: rack, rackDirection: [0, 1, 0] },
  };
}

/** Degrees that a member stands off square to the upright's bolt at ride height. */
function leanDeg({ hardpoints }: Suspension, at: NewJointPlace): number {
  const [, , rise] = normalize(sub(memberEnd(hardpoints, at), hardpoints[at]));
  return radToDeg(Math.asin(Math.abs(rise)));
}

/** Distance of a boss from its joint at which a bar through the joint, leaning toward the boss, passes its edge. */
function gapOver(barMm: number, leanDegrees: number, bossDiameterMm: number): number {
  const lean = degToRad(leanDegrees);
  return (barMm / 2 + BOSS_CLEAR_MM) / Math.cos(lean) + (bossDiameterMm / 2) * Math.tan(lean);
}
