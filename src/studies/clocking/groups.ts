import type { Corner, Entry } from '../../design/schema.ts';
import { applyDirection, applyPoint, invert, type Rigid } from '../../math/rigid.ts';
import type { Solid, Zone } from '../../solids/solid.ts';
import { entries } from '../../solids/wheelFrame.ts';

/** What a body turns with about the wheel axis in the study; undefined for one that stands. */
export type Turner = 'caliper' | 'hub' | undefined;

/** The caliper whose clocking is studied: the first of the file. Throws an Error where there is none. */
export function studiedCaliper(corner: Corner): { entry: Entry<'caliper'>; partIndex: number } {
  const partIndex = corner.parts.findIndex(({ kind }) => kind === 'caliper');
  const [entry] = entries(corner, 'caliper');
  if (entry === undefined) throw new Error('there is no caliper to be clocked: add a part of kind "caliper"');
  return { entry, partIndex };
}

/** What a solid turns with: caliper and its bolts with the caliper, the bolts of the hub's mount with the hub. */
export function turnerOf(corner: Corner, { partIndex }: Pick<Solid, 'partIndex'>): Turner {
  const entry = corner.parts[partIndex];
  if (entry.kind === 'bolts') {
    if (entry.joins === 'caliperMount') return 'caliper';
    return entry.joins === 'hubMount' ? 'hub' : undefined;
  }
  return partIndex === studiedCaliper(corner).partIndex ? 'caliper' : undefined;
}

/**
 * Whether a solid's true shape is one of revolution about the wheel axis, so that no turn changes how far another body
 * is from it: whatever spins is the body that it sweeps, housing and spacers are turned parts.
 */
export const isRound = ({ carrier, kind }: Pick<Solid, 'carrier' | 'kind'>): boolean =>
  carrier === 'wheel' || kind === 'bearingHousing' || kind === 'spacer';

/** How far off the wheel axis the middle of a zone may be to count as on it, mm, and out of line with it. */
const ON_AXIS = 1e-6;

/** Whether a zone is the same at every turn about the wheel axis. */
export function isRoundZone(zone: Zone, vehicleFromWheel: Rigid): boolean {
  const wheelFromVehicle = invert(vehicleFromWheel);
  const [x, , z] = applyPoint(wheelFromVehicle, zone.centre);
  if (Math.hypot(x, z) > ON_AXIS) return false;
  if (zone.shape === 'sphere') return true;
  const [across, , up] = applyDirection(wheelFromVehicle, zone.axis);
  return Math.hypot(across, up) <= ON_AXIS;
}

/** Whether a zone is one of a solid's own, which goes where the solid goes. */
export function ridesWith({ seats = [] }: Pick<Solid, 'seats'>, zone: Zone): boolean {
  const own = seats.flatMap(({ zones }) => zones);
  return own.some((one) => JSON.stringify(one) === JSON.stringify(zone));
}
