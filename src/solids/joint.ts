import type { Corner, Entry } from '../design/schema.ts';
import { translation } from '../math/rigid.ts';
import { dot, normalize, scale, sub, type Vec3 } from '../math/vec.ts';
import { radToDeg } from '../units/angle.ts';
import type { Builder } from './build.ts';
import { coaxial, halfDisc } from './coaxial.ts';
import { DimensionError } from './dimensionError.ts';
import { jointBolt } from './jointBolt.ts';
import { housingAxis, JOINT_CARRIER, memberEnd } from './jointPlace.ts';
import { type Manifold, rod } from './modeller.ts';
import { placed, worstChordMm } from './place.ts';
import { ringProfile } from './revolved.ts';

/** Joints are meshed at least this closely, mm: what a bolt has left in its housing is of the order of a millimetre. */
const MOST_CHORD_MM = 0.05;

/** A shank begins where its edge is inside the head, at this share of the way there. */
const IN_HEAD = 0.95;

/** A rod end's shank is square to its bolt but for the joint's tilt, and no joint tilts this far. */
const LEAST_SHANK_TO_BOLT_DEG = 30;

/**
 * A spherical joint in two solids. `ID`: the housing with the seat of its ball, and a rod end's shank; it rides on the arm
 * or tie rod. `ID.bolt`: the ball with bolt, spacers, head and nut; it rides on the other member. The housing is a ring as
 * wide as `housingWidth` about its own axis (see `housingAxis`), open on both sides: the seat is the ball's sphere.
 * Throws an Error where dimensions contradict.
 */
export const buildJoint: Builder<Entry<'joint'>> = (entry, given) => {
  const chordToleranceMm = Math.min(given.chordToleranceMm, MOST_CHORD_MM);
  const { corner, modeller } = given;
  const centre = corner.suspension.hardpoints[entry.at];
  const shank = checkJoint(entry, corner);
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
  return [
    {
      id: entry.id,
      kind: 'joint',
      carrier: JOINT_CARRIER[entry.at],
      attachments: [{ name: entry.at, at: centre }],
      ...placed(solid, translation(centre), Math.max(...errors)),
    },
    jointBolt(entry, { ...given, chordToleranceMm }),
  ];
};

/** Throws where the dimensions of a joint contradict; returns the direction of a rod end's shank. */
function checkJoint(entry: Entry<'joint'>, { suspension: { hardpoints } }: Corner): Vec3 | undefined {
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
  if (entry.form !== 'rodEnd') return undefined;
  if (entry.shankDiameter === undefined || entry.shankLength === undefined)
    throw new Error('a rod end needs shankDiameter and shankLength, from the centre of its ball');
  const shank = normalize(sub(memberEnd(hardpoints, entry.at), hardpoints[entry.at]));
  const offBoltDeg = radToDeg(Math.acos(Math.min(1, Math.abs(dot(shank, normalize(entry.boltDirection))))));
  if (offBoltDeg < LEAST_SHANK_TO_BOLT_DEG)
    throw new Error(
      `boltDirection is ${offBoltDeg.toFixed(1)}° from the line of the member that the rod end ends: ` +
        `a rod end's bolt is near square to it, at least ${LEAST_SHANK_TO_BOLT_DEG}°`,
    );
  return shank;
}
