import { usualBoltHead } from '../design/jointBoltHead.ts';
import type { Corner, Entry } from '../design/schema.ts';
import { translation } from '../math/rigid.ts';
import { dot, normalize, type Vec3 } from '../math/vec.ts';
import { type BuildContext, type BuiltSolid, modelOf } from './build.ts';
import { coaxial, halfDisc } from './coaxial.ts';
import { clampedFaces, shankIn } from './fasteners/seatZones.ts';
import { jointOf } from './jointPlace.ts';
import { type CrossSection, type Modeller, takeModel } from './modeller.ts';
import { placedModel, type ShapedModel } from './place.ts';
import { ringProfile } from './revolved.ts';
import type { Seat } from './solid.ts';
import { bossOfJoint, isUprightJoint } from './uprightPlan.ts';
import { entries } from './wheelFrame.ts';

/** A bolt that ends no further past a boss counts as flush with it, mm. */
const FLUSH_MM = 0.01;

/** A piece along a bolt: distances of its ends from the joint's centre, mm, positive along `boltDirection`. */
interface Piece {
  from: number;
  to: number;
  diameter: number;
}

/** Half the width of a joint's ball, mm: from its centre to the face that carries spacer or bolt. */
function ballFaceMm({ ballDiameter, ballWidth, boltDiameter, spacers }: Entry<'joint'>): number {
  if (ballWidth !== undefined) return ballWidth / 2;
  return Math.sqrt(ballDiameter ** 2 - Math.max(boltDiameter, spacers?.diameter ?? 0) ** 2) / 2;
}

/** Near and far end of the upright's boss along a bolt: distances from the joint's centre along `boltDirection`, mm. */
function bossAlong(corner: Corner, entry: Entry<'joint'>): { near: number; far: number } | undefined {
  const [upright] = entries(corner, 'upright');
  if (upright === undefined || !isUprightJoint(corner, entry.at)) return undefined;
  const way = dot(bossOfJoint(corner, upright, entry.at), normalize(entry.boltDirection)) < 0 ? -1 : 1;
  const near = way * upright.jointGap;
  return { near, far: near + way * upright.jointMounts.height };
}

/**
 * Heads and nuts at both ends of the bolt, except at an end inside the boss. If the file gives no dimensions for them, only
 * at ends with room for them before the clamped face.
 */
function headsOf(corner: Corner, entry: Entry<'joint'>): Piece[] {
  const { boltDiameter, boltLength, boltHead, spacers } = entry;
  const { diameter, height } = boltHead ?? usualBoltHead(boltDiameter);
  const boss = bossAlong(corner, entry);
  const end = boltLength / 2;
  const stackMm = Math.max(ballFaceMm(entry) + (spacers?.length ?? 0), entry.housingWidth / 2);
  return [-1, 1].flatMap((side): Piece[] => {
    const bossHere = boss !== undefined && Math.sign(boss.near + boss.far) === side;
    const face = bossHere ? Math.max(Math.abs(boss.near), Math.abs(boss.far)) : stackMm;
    if (bossHere && end <= face + FLUSH_MM) return [];
    if (boltHead === undefined && end - height < face - FLUSH_MM) return [];
    return [{ from: side * (end - height), to: side * end, diameter }];
  });
}

/**
 * The ball of a joint with the bolt, spacers, head and nut clamped to it, as a body of revolution about the bolt. The ball
 * ends at its faces if `ballWidth` is given; else it is whole. Contact with the upright's boss is intended along the bolt
 * and on the faces that carry spacer and nut.
 */
export function jointBolt(entry: Entry<'joint'>, context: BuildContext): BuiltSolid {
  const { corner, modeller, chordToleranceMm } = context;
  const axis = normalize(entry.boltDirection);
  const centre = corner.suspension.hardpoints[entry.at];
  const face = ballFaceMm(entry);
  const pieces: Piece[] = [
    { from: -entry.boltLength / 2, to: entry.boltLength / 2, diameter: entry.boltDiameter },
    ...(entry.spacers === undefined
      ? []
      : [-1, 1].map((side) => ({
          from: 0,
          to: side * (face + entry.spacers!.length),
          diameter: entry.spacers!.diameter,
        }))),
    ...headsOf(corner, entry),
  ];
  const shape: BoltShape = {
    pieces,
    ballDiameter: entry.ballDiameter,
    ballFaceMm: entry.ballWidth === undefined ? undefined : face,
    axis,
    chordToleranceMm,
  };
  const turned = (withBall: boolean) => {
    const key = JSON.stringify(['bolt', withBall, shape]);
    const model = modelOf(key, context, () => boltModel(modeller, withBall, shape));
    return placedModel(model, translation(centre), model.shapeErrorMm);
  };
  return {
    id: `${entry.id}.bolt`,
    kind: 'jointBolt',
    carrier: jointOf(corner, entry.at).bolt,
    attachments: [{ name: entry.at, at: centre }],
    ...turned(true),
    withoutBall: turned(false).mesh,
    seats: bossSeats(entry, { corner, chordToleranceMm }, centre, axis),
  };
}

/** What a bolt and its ball are made of. */
interface BoltShape {
  pieces: readonly Piece[];
  ballDiameter: number;
  /** Distance from the joint's centre at which the ball ends; undefined if it is whole. */
  ballFaceMm: number | undefined;
  axis: Vec3;
  chordToleranceMm: number;
}

/** The bolt, with the ball or without it, about an axis through the origin. */
function boltModel(
  modeller: Modeller,
  withBall: boolean,
  { pieces, ballDiameter, ballFaceMm, axis, chordToleranceMm }: BoltShape,
): ShapedModel {
  const bolt = modeller.CrossSection.union(
    pieces.map(({ from, to, diameter }) =>
      ringProfile(modeller, 0, diameter / 2, Math.min(from, to), Math.max(from, to)),
    ),
  );
  const ball = halfDisc(modeller, ballDiameter / 2, chordToleranceMm);
  const faced = (): CrossSection =>
    ballFaceMm === undefined
      ? ball.profile
      : ball.profile.intersect(ringProfile(modeller, 0, ballDiameter, -ballFaceMm, ballFaceMm));
  const profile = withBall ? bolt.add(faced()) : bolt;
  const { solid, errorMm } = coaxial(profile, axis, modeller, chordToleranceMm - ball.errorMm);
  return { ...takeModel(solid), shapeErrorMm: errorMm + ball.errorMm };
}

/** Zones of the shank in the boss and of both its faces: the near one carries a spacer or the ball, the far one head or nut. */
function bossSeats(
  entry: Entry<'joint'>,
  { corner, chordToleranceMm }: Pick<BuildContext, 'corner' | 'chordToleranceMm'>,
  origin: Vec3,
  axis: Vec3,
): Seat[] {
  const [upright] = entries(corner, 'upright');
  const boss = bossAlong(corner, entry);
  if (upright === undefined || boss === undefined) return [];
  const line = { origin, axis };
  const { ballDiameter, boltDiameter, boltHead, spacers } = entry;
  const onFace = (place: number, diameterMm: number, what: string) => {
    const clampedMm = Math.min(upright.jointMounts.diameter, diameterMm);
    return clampedFaces(line, place, clampedMm / 2, chordToleranceMm, what);
  };
  const headMm = (boltHead ?? usualBoltHead(boltDiameter)).diameter;
  return [
    {
      solidId: upright.id,
      zones: [
        shankIn(line, [boss.near, boss.far], boltDiameter, chordToleranceMm, "joint's bolt in the boss"),
        onFace(boss.near, spacers?.diameter ?? ballDiameter, 'spacer against the boss'),
        onFace(boss.far, headMm, 'nut against the boss'),
      ],
    },
  ];
}
