import type { Carrier, Corner, JointPlace } from '../design/schema.ts';
import { identity } from '../math/rigid.ts';
import { distance, type Vec3 } from '../math/vec.ts';
import type { Solid, Zone } from '../solids/solid.ts';
import type { Figures } from './figures.ts';
import { placeInWords } from './placeInWords.ts';

const JOINT_NAMES: Readonly<Record<JointPlace, string>> = {
  lowerJoint: 'the lower joint',
  upperJoint: 'the upper joint',
  tieRodInner: 'the inner tie-rod joint',
  tieRodOuter: 'the outer tie-rod joint',
  lowerArmFront: "the lower arm's front pivot",
  lowerArmRear: "the lower arm's rear pivot",
  upperArmFront: "the upper arm's front pivot",
  upperArmRear: "the upper arm's rear pivot",
};

/** A zone further from every joint than this is placed without one, mm. */
const NEAR_JOINT_MM = 60;

/** What meets in a zone: "bolt in its hole"; "intended contact" where nobody has said. */
export const zoneName = ({ what }: Zone): string => what ?? 'intended contact';

/** "sphere, 32.00 mm diameter", "disc, 16.00 mm diameter, 20.00 mm thick": rounded up, so that no zone is larger than said. */
export function zoneSizeInWords(zone: Zone, figures: Figures): string {
  const across = `${figures.boundWithUnit(2 * zone.radiusMm)} diameter`;
  return zone.shape === 'sphere'
    ? `sphere, ${across}`
    : `disc, ${across}, ${figures.boundWithUnit(2 * zone.halfThicknessMm)} thick`;
}

/**
 * Where the middle of a zone is at ride height, as far as that can be said: from the nearest joint, in vehicle axes, and
 * about the wheel axis where one of the two parts rides on the upright or the wheel.
 */
export function zonePlaceInWords(
  corner: Corner,
  { centre }: Zone,
  solids: readonly Pick<Solid, 'carrier'>[],
  figures: Figures,
): string {
  const carriers = solids.map(({ carrier }) => carrier);
  const carrier: Carrier =
    (['upright', 'wheel'] as const).find((one) => carriers.includes(one)) ?? carriers[0];
  const place = placeInWords(corner, carrier, identity(), centre, figures);
  const joint = nearestJoint(corner, centre);
  if (joint === undefined) return place;
  const apart = figures.placeWithUnit(joint.mm);
  const at = apart === figures.placeWithUnit(0) ? 'at' : `${apart} from`;
  return `${at} ${joint.name}; ${place}`;
}

function nearestJoint({ suspension }: Corner, point: Vec3): { name: string; mm: number } | undefined {
  const { hardpoints, damper } = suspension;
  const places: { name: string; at: Vec3 }[] = [
    ...(Object.keys(JOINT_NAMES) as JointPlace[]).map((place) => ({
      name: JOINT_NAMES[place],
      at: hardpoints[place],
    })),
    ...(damper === undefined
      ? []
      : [
          { name: "the damper's chassis mount", at: damper.chassisMount },
          { name: "the damper's moving mount", at: damper.armMount },
        ]),
  ];
  const [nearest] = places
    .map(({ name, at }) => ({ name, mm: distance(at, point) }))
    .toSorted((a, b) => a.mm - b.mm);
  return nearest.mm <= NEAR_JOINT_MM ? nearest : undefined;
}
