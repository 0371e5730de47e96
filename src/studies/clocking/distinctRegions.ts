import type { Region } from './region.ts';
import { type Arc, isWhole, WHOLE_DEG } from './spans.ts';

/** A region, and the hub's period if the region repeats all around; undefined if it does not. */
export interface DistinctRegion {
  region: Region;
  everyDeg: number | undefined;
}

/** Tolerance above rounding and below any clocking that matters, degrees. */
const SAME_DEG = 1e-6;

/**
 * Regions without duplicates: regions that the hub's symmetry maps onto each other are listed once, if all of them
 * exist. The arrangements differ only in which bolt is in which hole.
 */
export function distinctRegions(regions: readonly Region[], periodDeg: number): DistinctRegion[] {
  const copies = Math.round(WHOLE_DEG / periodDeg);
  const listed = new Set<Region>();
  return regions.flatMap((region): DistinctRegion[] => {
    if (listed.has(region)) return [];
    const same = regions.filter((other) => !listed.has(other) && isTurned(region, other, periodDeg));
    const isAllRound = copies > 1 && same.length === copies;
    for (const one of isAllRound ? same : [region]) listed.add(one);
    return [{ region, everyDeg: isAllRound ? periodDeg : undefined }];
  });
}

function isTurned(one: Region, other: Region, periodDeg: number): boolean {
  // A whole circle does not show a rotation, so the difference is compared; it changes opposite to the hub.
  const startsDeg = isWhole(one.hub)
    ? one.between.fromDeg - other.between.fromDeg
    : other.hub.fromDeg - one.hub.fromDeg;
  const turnDeg = periodDeg * Math.round(startsDeg / periodDeg);
  return (
    isShifted(one.caliper, other.caliper, 0) &&
    isShifted(one.hub, other.hub, turnDeg) &&
    isShifted(one.between, other.between, -turnDeg)
  );
}

/** Whether an arc is another one rotated by `byDeg`, except for whole turns. */
function isShifted(one: Arc, other: Arc, byDeg: number): boolean {
  if (isWhole(one) && isWhole(other)) return true;
  const startsDeg = other.fromDeg - one.fromDeg - byDeg;
  const longerDeg = other.toDeg - other.fromDeg - (one.toDeg - one.fromDeg);
  const turns = Math.round(startsDeg / WHOLE_DEG);
  return Math.abs(startsDeg - turns * WHOLE_DEG) < SAME_DEG && Math.abs(longerDeg) < SAME_DEG;
}
