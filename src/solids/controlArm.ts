import type { Entry } from '../design/schema.ts';
import { fromAxes, translation } from '../math/rigid.ts';
import {
  addScaled,
  cross,
  distance,
  dot,
  length,
  lerp,
  normalize,
  scale,
  sub,
  type Vec3,
} from '../math/vec.ts';
import type { BuildContext, Builder } from './build.ts';
import { damperArmAttachment } from './damperMounts.ts';
import { armToUprightZone, boltDirection } from './jointPlace.ts';
import { type Manifold, matrix16, rod } from './modeller.ts';
import { placed, worstChordMm } from './place.ts';
import type { Attachment } from './solid.ts';

const ORIGIN: Vec3 = [0, 0, 0];

/**
 * A control arm of round tubes, from a barrel at each inner pivot to the cup of the outer joint, with its brace and
 * gusset where it has them. All pieces are solid: what matters is their outside. Tubes end square inside the cup and on
 * the axis of the barrels. Throws an Error where the three points do not make an arm.
 */
export const buildControlArm: Builder<Entry<'controlArm'>> = (entry, context) => {
  const { corner, chordToleranceMm } = context;
  const [front, rear, outer] =
    entry.arm === 'lower'
      ? (['lowerArmFront', 'lowerArmRear', 'lowerJoint'] as const)
      : (['upperArmFront', 'upperArmRear', 'upperJoint'] as const);
  const { hardpoints } = corner.suspension;
  const joint = hardpoints[outer];
  // From here on about the outer joint, where the modeller's rounding is least.
  const pivots: [Vec3, Vec3] = [sub(hardpoints[front], joint), sub(hardpoints[rear], joint)];
  checkArm(entry, pivots, [front, rear, outer]);

  const bolt = boltDirection(corner, outer);
  const pivotLine = normalize(sub(pivots[1], pivots[0]));
  const round = (from: Vec3, to: Vec3, diameter: number) =>
    rod(context.modeller, from, to, diameter / 2, chordToleranceMm);
  const across = (centre: Vec3, axis: Vec3, width: number, diameter: number) =>
    round(addScaled(centre, axis, -width / 2), addScaled(centre, axis, width / 2), diameter);

  const pieces: Manifold[] = [across(ORIGIN, bolt, entry.cupHeight, entry.cupDiameter)];
  const radii = [entry.cupDiameter / 2, entry.pivotDiameter / 2, entry.tubeDiameter / 2];
  for (const pivot of pivots) {
    pieces.push(across(pivot, pivotLine, entry.pivotLength, entry.pivotDiameter));
    pieces.push(round(pivot, insideCup(entry, bolt, pivot), entry.tubeDiameter));
  }
  if (entry.brace !== undefined) {
    const [from, to] = pivots.map((pivot) => lerp(pivot, ORIGIN, entry.brace!.at));
    pieces.push(round(from, to, entry.brace.diameter));
    radii.push(entry.brace.diameter / 2);
  }
  if (entry.gusset !== undefined) pieces.push(gusset(entry.gusset, pivots, context));

  const pivotZoneMm = Math.hypot(entry.pivotDiameter, entry.pivotLength) / 2;
  const attachments: Attachment[] = [
    { name: outer, zone: armToUprightZone(corner, outer) },
    { name: front, zone: { shape: 'sphere', centre: hardpoints[front], radiusMm: pivotZoneMm } },
    { name: rear, zone: { shape: 'sphere', centre: hardpoints[rear], radiusMm: pivotZoneMm } },
    ...damperArmAttachment(corner, entry.arm === 'lower' ? 'lowerArm' : 'upperArm'),
  ];
  return [
    {
      id: entry.id,
      kind: 'controlArm',
      carrier: entry.arm === 'lower' ? 'lowerArm' : 'upperArm',
      attachments,
      ...placed(
        context.modeller.Manifold.union(pieces),
        translation(joint),
        worstChordMm(radii, chordToleranceMm),
      ),
    },
  ];
};

/** Throws where an arm cannot be made between its points, given about the outer joint. */
function checkArm(entry: Entry<'controlArm'>, pivots: [Vec3, Vec3], names: readonly string[]): void {
  const [front, rear, outer] = names;
  if (distance(...pivots) === 0) {
    throw new Error(`${front} and ${rear} are the same point: the arm has no pivot line`);
  }
  for (const [i, pivot] of pivots.entries()) {
    const least = (entry.cupDiameter + entry.pivotDiameter) / 2;
    if (length(pivot) <= least) {
      throw new Error(
        `${names[i]} is ${length(pivot).toFixed(1)} mm from ${outer}: half of cupDiameter and half of ` +
          `pivotDiameter take up ${least.toFixed(1)} mm, which leaves no arm`,
      );
    }
    if (entry.gusset !== undefined && entry.gusset.length >= length(pivot)) {
      throw new Error(
        `gusset.length ${entry.gusset.length} mm is longer than the tube to ${names[i]}, ` +
          `${length(pivot).toFixed(1)} mm`,
      );
    }
  }
  // Less than a thousandth of the arm's length across: three points in line but for rounding.
  const across = length(cross(...pivots)) / (length(pivots[0]) * length(pivots[1]));
  if (across < 1e-3) throw new Error(`${front}, ${rear} and ${outer} lie in one line: they make no arm`);
}

/** The end of a tube from `pivot`: on its axis, four fifths of the way from the cup's centre to its surface. */
function insideCup(entry: Entry<'controlArm'>, bolt: Vec3, pivot: Vec3): Vec3 {
  const toPivot = normalize(pivot);
  const alongBolt = Math.abs(dot(toPivot, bolt));
  const squareToBolt = Math.sqrt(Math.max(0, 1 - alongBolt ** 2));
  const toSurface = Math.min(
    alongBolt > 0 ? entry.cupHeight / 2 / alongBolt : Infinity,
    squareToBolt > 0 ? entry.cupDiameter / 2 / squareToBolt : Infinity,
  );
  return scale(toPivot, 0.8 * toSurface);
}

/** A triangular plate between both tubes at the outer joint, half its thickness to each side of the arm's plane. */
function gusset(
  { thickness, length: side }: NonNullable<Entry<'controlArm'>['gusset']>,
  pivots: [Vec3, Vec3],
  { modeller }: BuildContext,
): Manifold {
  const [x, other] = [normalize(pivots[0]), normalize(pivots[1])];
  const z = normalize(cross(x, other));
  const y = cross(z, x);
  const triangle: [number, number][] = [
    [0, 0],
    [side, 0],
    [side * dot(other, x), side * dot(other, y)],
  ];
  const origin = scale(z, -thickness / 2);
  return modeller.Manifold.extrude([triangle], thickness).transform(matrix16(fromAxes(x, y, z, origin)));
}
