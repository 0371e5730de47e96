import { layoutOf } from '../../layouts/layoutOf.ts';
import { vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { studiedCaliper } from './groups.ts';
import { TurningPair } from './turningPair.ts';

/** Distance of caliper and lower arm, mm. */
export interface ArmDistance {
  clearanceMm: number;
  errorMm: number;
}

/** A lower arm further away than this does not shield the caliper, mm. */
const FAR_MM = 400;

/**
 * Creates a function that measures the distance of the caliper from the lower arm, which shields it from below, at a
 * clocking and ride height. It returns undefined if the distance is above 400 mm or unknown, and for a corner without
 * a lower arm.
 */
export function lowerArmDistance(
  setup: Pick<Setup, 'design' | 'solids'>,
): (caliperDeg: number) => ArmDistance | undefined {
  const { corner } = setup.design;
  const { entry, partIndex } = studiedCaliper(corner);
  const { shieldingArm } = layoutOf(corner.suspension);
  const arm = corner.parts.findIndex((part) => part.kind === 'controlArm' && part.arm === shieldingArm);
  const [caliper, lower] = [partIndex, arm].map((part) =>
    setup.solids.find((solid) => solid.partIndex === part),
  );
  if (caliper === undefined || lower === undefined) return () => undefined;
  const pair = new TurningPair({
    turning: caliper,
    fixed: lower,
    turningZones: [],
    fixedZones: [],
    requiredMm: 0,
    vehicleFromWheel: vehicleFromWheelAxis(corner.suspension),
    limitMm: FAR_MM,
  });
  return (caliperDeg) => {
    const { marginMm: clearanceMm, errorMm } = pair.at(caliperDeg - entry.clockingDeg);
    return Number.isFinite(clearanceMm) ? { clearanceMm, errorMm } : undefined;
  };
}
