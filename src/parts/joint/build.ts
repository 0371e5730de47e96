import type { Corner, Entry } from '../../design/schema.ts';
import { translation } from '../../math/rigid.ts';
import { dot, normalize, scale, sub, type Vec3 } from '../../math/vec.ts';
import {
  type BuildContext,
  type Builder,
  type BuiltSolid,
  piece,
  withChordTolerance,
} from '../../solids/build.ts';
import { coaxial, halfDisc } from '../../solids/coaxial.ts';
import { DimensionError } from '../../solids/dimensionError.ts';
import { jointBolt } from '../../solids/jointBolt.ts';
import { housingAxis, jointOf, memberEnd } from '../../solids/jointPlace.ts';
import { type Manifold, rod } from '../../solids/modeller.ts';
import { placed, worstChordMm } from '../../solids/place.ts';
import { ringProfile } from '../../solids/revolved.ts';
import { radToDeg } from '../../units/angle.ts';

/** Coarsest chord tolerance for joints, mm: the gap between bolt and housing is of the order of a millimetre. */
const MOST_CHORD_MM = 0.05;

/** Start of a shank, as a fraction of the distance at which its edge meets the surface of the head. */
const IN_HEAD = 0.95;

/** Least angle between a rod end's shank and bolt: 90 degrees less a tilt that no joint reaches. */
const LEAST_SHANK_TO_BOLT_DEG = 30;

/**
 * A spherical joint in two solids. `ID`: the housing with the seat of its ball, and a rod end's shank; it moves with the arm
 * or tie rod. `ID.bolt`: the ball with bolt, spacers, head and nut; it moves with the other member. The housing is a ring,
 * `housingWidth` wide along its own axis (see `housingAxis`) and open on both sides; the seat is the ball's sphere. Throws
 * an Error if dimensions contradict.
 */
export const buildJoint: Builder<Entry<'joint'>> = (entry, given) => {
  const context = withChordTolerance(given, Math.min(given.chordToleranceMm, MOST_CHORD_MM));
  checkJoint(entry, given);
  return [piece('housing', entry, context, jointHousing), piece('bolt', entry, context, jointBolt)];
};

function jointHousing(
  entry: Entry<'joint'>,
  { corner, modeller, chordToleranceMm }: BuildContext,
): BuiltSolid {
  const centre = corner.suspension.hardpoints[entry.at];
  const shank = entry.form === 'rodEnd' ? shankDirection(entry, corner) : undefined;
  const [radius, halfWidth] = [entry.ballDiameter / 2, entry.housingWidth / 2];
  const seat = halfDisc(modeller, radius, chordToleranceMm);
  const ring = ringProfile(modeller, 0, entry.housingDiameter / 2, -halfWidth, halfWidth).subtract(
    seat.profile,
  );
  const housing = coaxial(ring, housingAxis(corner, entry), modeller, chordToleranceMm - seat.errorMm);
  let solid: Manifold = housing.solid;
  const errors = [housing.errorMm + seat.errorMm];
  if (shank !== undefined) {
    const [diameter, length] = [entry.shankDiameter!, entry.shankLength!];
    const start = (IN_HEAD * Math.sqrt(Math.max(0, entry.housingDiameter ** 2 - diameter ** 2))) / 2;
    const hollow = coaxial(
      seat.profile,
      housingAxis(corner, entry),
      modeller,
      chordToleranceMm - seat.errorMm,
    );
    const round = rod(modeller, scale(shank, start), scale(shank, length), diameter / 2, chordToleranceMm);
    solid = solid.add(round.subtract(hollow.solid));
    errors.push(worstChordMm([diameter / 2], chordToleranceMm));
  }
  return {
    id: entry.id,
    kind: 'joint',
    carrier: jointOf(corner, entry.at).housing,
    attachments: [{ name: entry.at, at: centre }],
    ...placed(solid, translation(centre), Math.max(...errors)),
  };
}

/** Direction of a rod end's shank. */
const shankDirection = ({ at }: Entry<'joint'>, corner: Corner): Vec3 =>
  normalize(sub(memberEnd(corner, at), corner.suspension.hardpoints[at]));

/** Throws if the dimensions of the joint contradict. */
function checkJoint(entry: Entry<'joint'>, context: BuildContext): void {
  const { ballDiameter } = entry;
  for (const name of ['boltDiameter', 'housingWidth', 'ballWidth'] as const) {
    const mm = entry[name];
    if (mm !== undefined && mm >= ballDiameter)
      throw new DimensionError(
        (shown) =>
          `${name} ${shown(mm)} does not fit a ball of ballDiameter ${shown(ballDiameter)}: it must be less`,
      );
  }
  if (entry.housingDiameter <= ballDiameter)
    throw new DimensionError(
      (shown) =>
        `housingDiameter ${shown(entry.housingDiameter)} must be more than ballDiameter ${shown(ballDiameter)}`,
    );
  if (entry.form !== 'rodEnd') return;
  if (entry.shankDiameter === undefined || entry.shankLength === undefined)
    throw new Error('a rod end needs shankDiameter and shankLength, the length from the centre of its ball');
  const shank = shankDirection(entry, context.corner);
  const offBoltDeg = radToDeg(Math.acos(Math.min(1, Math.abs(dot(shank, normalize(entry.boltDirection))))));
  if (offBoltDeg < LEAST_SHANK_TO_BOLT_DEG)
    throw new Error(
      `boltDirection is ${offBoltDeg.toFixed(1)}° from the line of the rod end's shank: ` +
        `they are nearly square to each other, so it must be at least ${LEAST_SHANK_TO_BOLT_DEG}°`,
    );
}
