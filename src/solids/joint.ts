import type { Entry } from '../design/schema.ts';
import { translation } from '../math/rigid.ts';
import { addScaled, dot, normalize, scale, sub, type Vec3 } from '../math/vec.ts';
import { radToDeg } from '../units/angle.ts';
import { ball, ballErrorMm } from './ball.ts';
import type { Builder } from './build.ts';
import { JOINT_CARRIER, memberEnd } from './jointPlace.ts';
import { rod } from './modeller.ts';
import { placed, worstChordMm } from './place.ts';

/** A rod end's shank is square to its bolt but for the joint's tilt, and no joint tilts this far. */
const LEAST_SHANK_TO_BOLT_DEG = 30;

/** Holds the edge of the bolt and housing well inside the zone. */
const ZONE_MARGIN_MM = 1;

/**
 * One joint as one body: housing, ball and bolt, and a rod end's shank. It rides on the member that holds the housing.
 * The housing's axis lies along the bolt at ride height, a rod end's as near to it as the shank allows.
 *
 * The bolt belongs to the other member. The two turn against each other only about the joint's centre, so that the
 * bolt drawn here is out by the joint's tilt from ride height: its ends by half the bolt's length x the sine of
 * that tilt. It stays inside the zone, the sphere about the centre that holds housing, ball and bolt.
 */
export const buildJoint: Builder<Entry<'joint'>> = (entry, { corner, modeller, chordToleranceMm }) => {
  const { hardpoints } = corner.suspension;
  const centre = hardpoints[entry.at];
  const bolt = normalize(entry.boltDirection);
  const radii = [entry.housingDiameter / 2, entry.boltDiameter / 2];
  if (entry.boltDiameter >= entry.ballDiameter) {
    throw new Error(
      `boltDiameter ${entry.boltDiameter} mm does not fit through a ball of ballDiameter ` +
        `${entry.ballDiameter} mm: it must be smaller`,
    );
  }
  const along = (direction: Vec3, width: number, radius: number) =>
    rod(modeller, scale(direction, -width / 2), scale(direction, width / 2), radius, chordToleranceMm);

  let housingAxis = bolt;
  const pieces = [
    along(bolt, entry.boltLength, entry.boltDiameter / 2),
    ball(modeller, entry.ballDiameter / 2, chordToleranceMm),
  ];
  if (entry.form === 'rodEnd') {
    if (entry.shankDiameter === undefined || entry.shankLength === undefined) {
      throw new Error('a rod end needs shankDiameter and shankLength, from the centre of its ball');
    }
    const shank = normalize(sub(memberEnd(hardpoints, entry.at), centre));
    const offBoltDeg = radToDeg(Math.acos(Math.min(1, Math.abs(dot(shank, bolt)))));
    if (offBoltDeg < LEAST_SHANK_TO_BOLT_DEG) {
      throw new Error(
        `boltDirection is ${offBoltDeg.toFixed(1)}° from the line of the member that the rod end ends: ` +
          `a rod end's bolt is near square to it, at least ${LEAST_SHANK_TO_BOLT_DEG}°`,
      );
    }
    housingAxis = normalize(addScaled(bolt, shank, -dot(bolt, shank)));
    const shankRadius = entry.shankDiameter / 2;
    radii.push(shankRadius);
    pieces.push(rod(modeller, [0, 0, 0], scale(shank, entry.shankLength), shankRadius, chordToleranceMm));
  }
  pieces.push(along(housingAxis, entry.housingWidth, entry.housingDiameter / 2));

  const radiusMm =
    ZONE_MARGIN_MM +
    Math.max(
      entry.ballDiameter / 2,
      Math.hypot(entry.housingDiameter, entry.housingWidth) / 2,
      Math.hypot(entry.boltDiameter, entry.boltLength) / 2,
    );
  const chordMm = Math.max(
    worstChordMm(radii, chordToleranceMm),
    ballErrorMm(entry.ballDiameter / 2, chordToleranceMm),
  );
  return [
    {
      id: entry.id,
      kind: 'joint',
      carrier: JOINT_CARRIER[entry.at],
      attachments: [{ name: entry.at, zone: { shape: 'sphere', centre, radiusMm } }],
      ...placed(modeller.Manifold.union(pieces), translation(centre), chordMm),
    },
  ];
};
