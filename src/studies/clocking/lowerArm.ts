import { vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { studiedCaliper } from './groups.ts';
import { TurningPair } from './turningPair.ts';

/** How far apart caliper and lower arm are, mm. */
export interface ArmDistance {
  clearanceMm: number;
  errorMm: number;
}

/** Further away the arm shields nothing, mm. */
const FAR_MM = 400;

/**
 * Tells how far the caliper is from the lower arm that shields it from below, at a clocking and ride height; undefined
 * where it is further than 400 mm, where that cannot be told, and of a corner without a lower arm.
 */
export function lowerArmDistance(setup: Setup): (caliperDeg: number) => ArmDistance | undefined {
  const { corner } = setup.design;
  const { entry, partIndex } = studiedCaliper(corner);
  const arm = corner.parts.findIndex((part) => part.kind === 'controlArm' && part.arm === 'lower');
  const [caliper, lower] = [partIndex, arm].map((part) =>
    setup.solids.find((solid) => solid.partIndex === part),
  );
  if (caliper === undefined || lower === undefined) return () => undefined;
  const pair = new TurningPair({
    turning: caliper,
    standing: lower,
    ridingZones: [],
    standingZones: [],
    wantedMm: 0,
    vehicleFromWheel: vehicleFromWheelAxis(corner.suspension),
    limitMm: FAR_MM,
  });
  return (caliperDeg) => {
    const { marginMm: clearanceMm, errorMm } = pair.at(caliperDeg - entry.clockingDeg);
    return Number.isFinite(clearanceMm) ? { clearanceMm, errorMm } : undefined;
  };
}
