import type { BrakeHose, DriveShaft, Entry } from '../design/schema.ts';
import { tiltAtBallFaceDeg, tiltAtShaftDeg } from '../mechanism/jointTilt.ts';
import type { AllowedFrom, MeasuredLimit } from './limit.ts';

export interface Allowed {
  allowed: number | undefined;
  allowedFrom: AllowedFrom;
}

const computed = (
  allowed: number,
  field: AllowedFrom['field'],
  dimensions: AllowedFrom['dimensions'],
): Allowed => ({ allowed, allowedFrom: { how: 'computed', field, dimensions } });

/** The typed value of a field; undefined if the file does not give it. */
const typed = (allowed: number | undefined, field: AllowedFrom['field']): Allowed => ({
  allowed,
  allowedFrom: { how: allowed === undefined ? 'missing' : 'typed', field, dimensions: [] },
});

/**
 * Tilt that a joint allows to each side, degrees: the typed value, else the smaller of the values that its dimensions
 * give.
 */
export function allowedTilt(joint: Entry<'joint'>): Allowed {
  const { allowedTiltDeg, ballDiameter, housingWidth, boltDiameter, ballWidth, spacers } = joint;
  if (allowedTiltDeg !== undefined) return typed(allowedTiltDeg, 'allowedTiltDeg');
  const shaft =
    spacers !== undefined && spacers.diameter > boltDiameter
      ? { name: 'spacer', mm: spacers.diameter }
      : { name: 'bolt', mm: boltDiameter };
  const ball = [
    { name: 'ball', mm: ballDiameter },
    { name: 'housing width', mm: housingWidth },
  ];
  const atShaft = computed(tiltAtShaftDeg(ballDiameter, housingWidth, shaft.mm), 'allowedTiltDeg', [
    ...ball,
    shaft,
  ]);
  if (ballWidth === undefined) return atShaft;
  const atFace = computed(tiltAtBallFaceDeg(ballDiameter, housingWidth, ballWidth), 'allowedTiltDeg', [
    ...ball,
    { name: 'ball width', mm: ballWidth },
  ]);
  return (atFace.allowed ?? 0) < (atShaft.allowed ?? 0) ? atFace : atShaft;
}

/**
 * Length of a damper fully compressed, mm: the typed value, else the length at which the rod's eye meets the end of
 * the body.
 */
export function allowedClosed({ closedLength, bodyLength, eyeDiameter }: Entry<'damper'>): Allowed {
  if (closedLength !== undefined) return typed(closedLength, 'closedLength');
  return computed(bodyLength + eyeDiameter / 2, 'closedLength', [
    { name: 'body', mm: bodyLength },
    { name: 'half the eye', mm: eyeDiameter / 2 },
  ]);
}

/** Length of a damper fully extended, mm. It must be typed: no other dimension gives it. */
export const allowedOpen = ({ openLength }: Entry<'damper'>): Allowed => typed(openLength, 'openLength');

/** Angle that a joint of the drive shaft may take, degrees: the smaller of what the joint can and what is allowed in use. */
export function allowedShaftAngle(shaft: DriveShaft, joint: 'inner' | 'outer'): Allowed {
  const [ofJoint, inUse] = [`${joint}AllowedDeg`, `${joint}UseDeg`] as const;
  const isUse = (shaft[inUse] ?? Number.POSITIVE_INFINITY) < (shaft[ofJoint] ?? Number.POSITIVE_INFINITY);
  return typed(shaft[isUse ? inUse : ofJoint], isUse ? inUse : ofJoint);
}

/** Change of the distance between the drive shaft's joints from ride height that its plunge allows, mm. */
export const allowedPlunge = (shaft: DriveShaft, way: 'plungeIn' | 'plungeOut'): Allowed =>
  typed(shaft[way], way);

/** Straight distance between the ends of the brake hose that its length allows, mm. */
export const allowedDistance = ({ length, slack }: BrakeHose): Allowed =>
  length === undefined
    ? typed(undefined, 'length')
    : computed(length - slack, 'length', [
        { name: 'length', mm: length },
        { name: 'slack', mm: slack },
      ]);

/** Least length of a brake hose to buy, mm: its largest straight distance, proven if it is, and its slack. */
export const hoseToBuyMm = (
  { slack }: BrakeHose,
  { worst, proven }: Pick<MeasuredLimit, 'worst' | 'proven'>,
): number | undefined => worst && (proven ?? worst.used) + slack;
