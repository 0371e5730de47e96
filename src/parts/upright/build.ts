import type { Corner, Entry, JointPlace } from '../../design/schema.ts';
import { add, addScaled, cross, scale, type Vec3 } from '../../math/vec.ts';
import type { BuildContext, Builder } from '../../solids/build.ts';
import { type Manifold, matrix16, rod } from '../../solids/modeller.ts';
import { placed, worstChordMm } from '../../solids/place.ts';
import type { Attachment } from '../../solids/solid.ts';
import {
  armBar,
  type BossPlace,
  bossPlace,
  kickOutRadiusMm,
  legDepthMm,
  legOutward,
  padFrame,
  uprightJoints,
} from '../../solids/uprightPlan.ts';

const AXIS: Vec3 = [0, 1, 0];

/** Overlap of pieces that meet at a face, mm, so that their union is one piece. */
const SHARED_MM = 1;

/**
 * An upright fabricated from plate: the round pad that the bearing housing bolts to, a leg to the lower and to the upper
 * joint's boss, a flat steering arm to the tie rod's boss, and the bore. Legs are in the pad's plane out to the kick-out radius
 * and run straight to their boss from there. Boxed legs are drawn solid: `boxWall` is checked but does not show. Bosses are
 * drawn without holes. Throws an Error if dimensions contradict.
 */
export const buildUpright: Builder<Entry<'upright'>> = (entry, context) => {
  const { corner, modeller, chordToleranceMm } = context;
  const { pad, legs, arm, bore, bosses } = uprightPieces(entry, context);
  const plates = modeller.Manifold.union([pad, legs.lower, legs.upper]);
  const solid = modeller.Manifold.union([
    plates.add(arm).subtract(bore),
    bosses.lower.solid,
    bosses.upper.solid,
    bosses.steering.solid,
  ]);
  const radii = [entry.hubMount.diameter / 2, entry.hubMount.bore / 2, entry.jointMounts.diameter / 2];
  return [
    {
      id: entry.id,
      kind: 'upright',
      carrier: 'upright',
      attachments: attachmentsOf(corner),
      ...placed(solid, padFrame(corner), worstChordMm(radii, chordToleranceMm)),
    },
  ];
};

/** What an upright is united from, in the pad's frame. */
export interface UprightPieces {
  pad: Manifold;
  legs: { lower: Manifold; upper: Manifold };
  /** Cut flush with the faces for the bearing housing and for the joint's spacer and nut. */
  arm: Manifold;
  /** Cut out of pad, legs and arm. */
  bore: Manifold;
  bosses: { lower: Boss; upper: Boss; steering: Boss };
}

/** The pieces of an upright. Throws an Error if dimensions contradict. */
export function uprightPieces(entry: Entry<'upright'>, context: BuildContext): UprightPieces {
  checkUpright(entry);
  const { corner, modeller, chordToleranceMm } = context;
  const { hubMount, plateThickness } = entry;
  const padRadius = hubMount.diameter / 2;
  const alongAxis = (fromY: number, toY: number, radius: number) =>
    rod(modeller, [0, fromY, 0], [0, toY, 0], radius, chordToleranceMm);
  const joints = uprightJoints(corner);
  const bosses = {
    lower: bossAt(joints.lower, entry, context),
    upper: bossAt(joints.upper, entry, context),
    steering: bossAt(joints.steering, entry, context),
  };
  return {
    pad: alongAxis(0, -plateThickness, padRadius),
    legs: {
      lower: leg(joints.lower, bosses.lower, entry, context),
      upper: leg(joints.upper, bosses.upper, entry, context),
    },
    arm: modeller.Manifold.difference([
      steeringArm(bosses.steering, entry, context),
      alongAxis(0, hubMount.diameter + entry.steeringArm.width, padRadius),
      ...beyondBoss(bosses.steering, entry, context),
    ]),
    bore: alongAxis(SHARED_MM, -legDepthMm(entry) - SHARED_MM, hubMount.bore / 2),
    bosses,
  };
}

function attachmentsOf(corner: Corner): Attachment[] {
  const { hardpoints, damper } = corner.suspension;
  const joints = Object.values(uprightJoints(corner)).map((name) => ({ name, at: hardpoints[name] }));
  return damper?.on === 'upright' ? [...joints, { name: 'damperArm', at: damper.armMount }] : joints;
}

function checkUpright(entry: Entry<'upright'>): void {
  const { hubMount, plateThickness, boxDepth, boxWall, legWidth } = entry;
  if (hubMount.bore >= hubMount.diameter) {
    throw new Error(
      `hubMount.bore ${hubMount.bore} mm leaves no pad: it must be less than hubMount.diameter ` +
        `${hubMount.diameter} mm`,
    );
  }
  if (boxDepth === 0) return;
  if (boxDepth < plateThickness) {
    throw new Error(
      `boxDepth ${boxDepth} mm is the whole depth of the boxed legs, plate included: it must be at least ` +
        `plateThickness ${plateThickness} mm, or 0 for a single plate`,
    );
  }
  if (2 * boxWall >= Math.min(boxDepth, legWidth)) {
    throw new Error(
      `boxWall ${boxWall} mm on both sides fills a leg of legWidth ${legWidth} mm and boxDepth ${boxDepth} mm: it must be less ` +
        'than half of each',
    );
  }
}

interface Boss extends BossPlace {
  solid: Manifold;
}

function bossAt(
  place: JointPlace,
  entry: Entry<'upright'>,
  { corner, modeller, chordToleranceMm }: BuildContext,
): Boss {
  const boss = bossPlace(corner, entry, place);
  const { near, far } = boss;
  return { ...boss, solid: rod(modeller, near, far, entry.jointMounts.diameter / 2, chordToleranceMm) };
}

/** Cylinders beyond both faces of a boss, long enough to cut off the steering arm's bar. */
function beyondBoss(
  { near, far, axis }: Boss,
  { steeringArm, jointMounts }: Entry<'upright'>,
  { modeller, chordToleranceMm }: BuildContext,
): Manifold[] {
  const reach = steeringArm.width + steeringArm.thickness;
  const radius = jointMounts.diameter / 2;
  return [
    rod(modeller, near, addScaled(near, axis, -reach), radius, chordToleranceMm),
    rod(modeller, far, addScaled(far, axis, reach), radius, chordToleranceMm),
  ];
}

/** A leg in the pad's frame: flat from the wheel axis out to the kick-out radius, then straight to its boss. */
function leg(place: JointPlace, boss: Boss, entry: Entry<'upright'>, { modeller }: BuildContext): Manifold {
  const { legWidth } = entry;
  const kickOutRadius = kickOutRadiusMm(entry);
  const jointRadius = Math.hypot(boss.joint[0], boss.joint[2]);
  if (jointRadius <= kickOutRadius) {
    const assumed = entry.kickOutRadius === undefined ? ' (assumed: the edge of the pad)' : '';
    throw new Error(
      `kickOutRadius ${kickOutRadius} mm${assumed} reaches past ${place}, which is ${jointRadius.toFixed(1)} mm from the ` +
        'wheel axis: it must be less',
    );
  }
  const depth = legDepthMm(entry);
  const outward = legOutward(boss);
  const sideways = cross(AXIS, outward);
  const section = (radius: number) =>
    [-1, 1].flatMap((side) =>
      [0, -depth].map((y): [number, number, number] => {
        const at = add(scale(outward, radius), scale(sideways, (side * legWidth) / 2));
        return [at[0], y, at[2]];
      }),
    );
  const flat = modeller.Manifold.hull([...section(0), ...section(kickOutRadius)]);
  const shared = Math.min(SHARED_MM, kickOutRadius);
  const kicked = modeller.Manifold.hull([
    ...section(kickOutRadius - shared),
    ...section(kickOutRadius),
    boss.solid,
  ]);
  return flat.add(kicked);
}

/** The steering arm in the pad's frame. */
function steeringArm(boss: Boss, entry: Entry<'upright'>, { modeller }: BuildContext): Manifold {
  const { padFromBar, runMm } = armBar(boss, entry);
  const { width, thickness } = entry.steeringArm;
  return modeller.Manifold.cube([thickness, width, runMm], true)
    .translate([0, 0, runMm / 2])
    .transform(matrix16(padFromBar));
}
