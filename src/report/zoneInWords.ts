import type { Carrier, Corner } from '../design/schema.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import { identity } from '../math/rigid.ts';
import { distance, type Vec3 } from '../math/vec.ts';
import type { Solid, Zone } from '../solids/solid.ts';
import type { Figures } from './figures.ts';
import { placeInWords } from './placeInWords.ts';

/** Largest distance of a zone from the joint that its place names, mm. */
const NEAR_JOINT_MM = 60;

/** The contact in a zone: "bolt in its hole", or "intended contact" if the file does not name it. */
export const zoneName = ({ what }: Zone): string => what ?? 'intended contact';

/** "sphere, 32.00 mm diameter", "disc, 16.00 mm diameter, 20.00 mm thick": rounded up, so that no zone is larger than shown. */
export function zoneSizeInWords(zone: Zone, figures: Figures): string {
  const across = `${figures.boundWithUnit(2 * zone.radiusMm)} diameter`;
  return zone.shape === 'sphere'
    ? `sphere, ${across}`
    : `disc, ${across}, ${figures.boundWithUnit(2 * zone.halfThicknessMm)} thick`;
}

/**
 * Place of the centre of a zone at ride height: from the nearest joint, in vehicle axes, and about the wheel axis if one of
 * the two parts is on the upright or the wheel.
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
    ...Object.entries(layoutOf(suspension).joints).map(([place, joint]) => ({
      name: `the ${joint.name}`,
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
