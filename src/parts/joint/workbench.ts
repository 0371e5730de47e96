import { ballForTilt, neededTiltDeg } from '../../app/state/usualLimits.ts';
import { usualBoltHead } from '../../design/jointBoltHead.ts';
import type { Corner, JointPlace } from '../../design/schema.ts';
import { layoutOf } from '../../layouts/layoutOf.ts';
import { jointOf } from '../../solids/jointPlace.ts';
import { firstOf, freeName, type WorkbenchKind } from '../workbenchKind.ts';

// All figures in this file: common practice, no source.

/** Bolt diameter, and housing diameter minus ball diameter, of each form of a joint, mm. */
export const USUAL_JOINT = {
  cup: { form: 'cup', boltDiameter: 14, walls: 14 },
  rodEnd: { form: 'rodEnd', boltDiameter: 12, walls: 10 },
} as const;

/** Length of a joint's bolt if no boss determines it, mm. */
export const JOINT_BOLT_LENGTH_MM = 80;

export const joint: WorkbenchKind<'joint'> = {
  /** With enough tilt for the whole travel and lock, and a bolt that ends flush with the boss of the upright. */
  start(corner) {
    const at = freePlace(corner);
    const { form, boltDiameter, walls } = USUAL_JOINT.cup;
    const needed = neededTiltDeg(corner.suspension, { at, form, boltDirection: [0, 0, 1] });
    const ball = ballForTilt(needed, boltDiameter);
    const upright = jointOf(corner, at).bolt === 'upright' ? firstOf(corner, 'upright') : undefined;
    return {
      at,
      form,
      ...ball,
      housingDiameter: ball.ballDiameter + walls,
      boltDiameter,
      boltLength:
        upright === undefined ? JOINT_BOLT_LENGTH_MM : 2 * (upright.jointGap + upright.jointMounts.height),
    };
  },
  groups: {
    housingDirection: ({ boltDirection }) => boltDirection,
    boltHead({ boltDiameter }) {
      const { diameter, height } = usualBoltHead(boltDiameter);
      return { diameter: tenth(diameter), height: tenth(height) };
    },
    spacers: ({ ballDiameter, boltDiameter }) => ({
      diameter: boltDiameter + Math.min(3, (ballDiameter - boltDiameter) / 2),
      length: 10,
    }),
  },
  solids: {
    joint: { tone: '#a87f8e', key: [['boltDiameter', 'bolt ', '']] },
    jointBolt: { tone: '#a68471', key: [] },
  },
};

const tenth = (mm: number): number => Math.round(10 * mm) / 10;

/** First place without a joint; the first of all if every place has one. */
const freePlace = ({ suspension, parts }: Corner): JointPlace =>
  freeName(layoutOf(suspension).joints, (place) =>
    parts.some((part) => part.kind === 'joint' && part.at === place),
  );
