import type { Corner, Entry } from '../../design/schema.ts';
import { applyDirection, applyPoint, invert, type Rigid } from '../../math/rigid.ts';
import type { Solid, Zone } from '../../solids/solid.ts';
import { entries } from '../../solids/wheelFrame.ts';

/** The part that a body turns with about the wheel axis in the study; undefined if it does not turn. */
export type Turner = 'caliper' | 'hub' | undefined;

/** The caliper whose clocking is studied: the first of the file. Throws an Error if there is none. */
export function studiedCaliper(corner: Corner): { entry: Entry<'caliper'>; partIndex: number } {
  const partIndex = corner.parts.findIndex(({ kind }) => kind === 'caliper');
  const [entry] = entries(corner, 'caliper');
  if (entry === undefined)
    throw new Error('the corner has no caliper to clock: add a part of kind "caliper"');
  return { entry, partIndex };
}

/**
 * The part that a solid turns with: the caliper and its bolts with the caliper, the hub's mounting bolts with the
 * hub.
 */
export function turnerOf(corner: Corner, { partIndex }: Pick<Solid, 'partIndex'>): Turner {
  const entry = corner.parts[partIndex];
  if (entry.kind === 'bolts') {
    if (entry.joins === 'caliperMount') return 'caliper';
    return entry.joins === 'hubMount' ? 'hub' : undefined;
  }
  return partIndex === studiedCaliper(corner).partIndex ? 'caliper' : undefined;
}

/**
 * Whether a solid's true shape is a body of revolution about the wheel axis, so that no turn changes its distance to
 * another body. Spinning parts count as the body that they sweep; bearing housing and spacers are turned parts.
 */
export const isRound = ({ carrier, kind }: Pick<Solid, 'carrier' | 'kind'>): boolean =>
  carrier === 'wheel' || kind === 'bearingHousing' || kind === 'spacer';

/** Tolerance for a zone on the wheel axis: distance of its middle, mm, and deviation of its direction. */
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

/** Whether a zone belongs to a solid's seats and moves with it. */
export function ridesWith({ seats = [] }: Pick<Solid, 'seats'>, zone: Zone): boolean {
  const own = seats.flatMap(({ zones }) => zones);
  return own.some((one) => JSON.stringify(one) === JSON.stringify(zone));
}
