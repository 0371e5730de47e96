import type { Corner, Entry } from '../../design/schema.ts';
import { fromAxes, type Rigid } from '../../math/rigid.ts';
import { addScaled, cross, dot, normalize, scale, sub, type Vec3 } from '../../math/vec.ts';
import {
  type BuildContext,
  type Builder,
  type BuiltSolid,
  modelOf,
  piece,
  withChordTolerance,
} from '../../solids/build.ts';
import { coaxial, halfDisc } from '../../solids/coaxial.ts';
import { DimensionError } from '../../solids/dimensionError.ts';
import { jointBolt } from '../../solids/jointBolt.ts';
import { housingAxis, jointOf, memberEnd } from '../../solids/jointPlace.ts';
import {
  axisFrame,
  type CrossSection,
  type Manifold,
  type Modeller,
  rod,
  takeModel,
} from '../../solids/modeller.ts';
import { placedModel, type ShapedModel, worstChordMm } from '../../solids/place.ts';
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

/** A shank whose direction is square to the housing's axis but for rounding is modelled as square. */
const SQUARE = 1e-12;

function jointHousing(entry: Entry<'joint'>, context: BuildContext): BuiltSolid {
  const { corner, modeller, chordToleranceMm } = context;
  const centre = corner.suspension.hardpoints[entry.at];
  const axis = housingAxis(corner, entry);
  const shank = entry.form === 'rodEnd' ? shankDirection(entry, corner) : undefined;
  const along = shank === undefined ? 0 : dot(shank, axis);
  const shape: HousingShape = {
    ballDiameter: entry.ballDiameter,
    diameter: entry.housingDiameter,
    width: entry.housingWidth,
    shank: shank && {
      diameter: entry.shankDiameter!,
      length: entry.shankLength!,
      alongAxis: Math.abs(along) < SQUARE ? 0 : along,
    },
    chordToleranceMm,
  };
  const model = modelOf(JSON.stringify(['housing', shape]), context, () => housingModel(modeller, shape));
  const frame = shank === undefined ? axisFrame(centre, axis) : frameAlong(shank, axis, centre);
  return {
    id: entry.id,
    kind: 'joint',
    carrier: jointOf(corner, entry.at).housing,
    attachments: [{ name: entry.at, at: centre }],
    ...placedModel(model, frame, model.shapeErrorMm),
  };
}

/** What a joint's housing is made of. */
interface HousingShape {
  ballDiameter: number;
  diameter: number;
  width: number;
  /** `alongAxis`: cosine of the angle between the shank and the housing's axis. */
  shank: { diameter: number; length: number; alongAxis: number } | undefined;
  chordToleranceMm: number;
}

/** The frame with its z along the housing's axis and the shank in its x-z plane, on the side of +x. */
function frameAlong(shank: Vec3, axis: Vec3, centre: Vec3): Rigid {
  const x = normalize(addScaled(shank, axis, -dot(shank, axis)));
  return fromAxes(x, cross(axis, x), axis, centre);
}

/** The housing about z with its centre at the origin, and its shank in the x-z plane. */
function housingModel(
  modeller: Modeller,
  { ballDiameter, diameter, width, shank, chordToleranceMm }: HousingShape,
): ShapedModel {
  const seat = halfDisc(modeller, ballDiameter / 2, chordToleranceMm);
  const turned = (profile: CrossSection) =>
    coaxial(profile, [0, 0, 1], modeller, chordToleranceMm - seat.errorMm);
  const ring = ringProfile(modeller, 0, diameter / 2, -width / 2, width / 2).subtract(seat.profile);
  const housing = turned(ring);
  let solid: Manifold = housing.solid;
  const errors = [housing.errorMm + seat.errorMm];
  if (shank !== undefined) {
    const radius = shank.diameter / 2;
    const direction: Vec3 = [Math.sqrt(1 - shank.alongAxis ** 2), 0, shank.alongAxis];
    const start = (IN_HEAD * Math.sqrt(Math.max(0, diameter ** 2 - shank.diameter ** 2))) / 2;
    const round = rod(
      modeller,
      scale(direction, start),
      scale(direction, shank.length),
      radius,
      chordToleranceMm,
    );
    solid = solid.add(round.subtract(turned(seat.profile).solid));
    errors.push(worstChordMm([radius], chordToleranceMm));
  }
  return { ...takeModel(solid), shapeErrorMm: Math.max(...errors) };
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
