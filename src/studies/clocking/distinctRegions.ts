import type { Region } from './region.ts';
import { type Arc, isWhole, WHOLE_DEG } from './spans.ts';

/** A region, and after which turns of the hub there is the same again all round; undefined where there is not. */
export interface DistinctRegion {
  region: Region;
  everyDeg: number | undefined;
}

/** More than rounding, less than anybody clocks to, degrees. */
const SAME_DEG = 1e-6;

/**
 * Regions, those told once that a turn of the hub by its period makes one another, where all of them are there: the bolts
 * then stand where others stood, and nobody can tell the arrangements apart.
 */
export function distinctRegions(regions: readonly Region[], periodDeg: number): DistinctRegion[] {
  const copies = Math.round(WHOLE_DEG / periodDeg);
  const told = new Set<Region>();
  return regions.flatMap((region): DistinctRegion[] => {
    if (told.has(region)) return [];
    const same = regions.filter((other) => !told.has(other) && isTurned(region, other, periodDeg));
    const isAllRound = copies > 1 && same.length === copies;
    for (const one of isAllRound ? same : [region]) told.add(one);
    return [{ region, everyDeg: isAllRound ? periodDeg : undefined }];
  });
}

function isTurned(one: Region, other: Region, periodDeg: number): boolean {
  // A whole circle does not tell by how much it is turned; the difference goes the other way than the hub.
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

/** Whether an arc is another turned by so much, whole turns aside. */
function isShifted(one: Arc, other: Arc, byDeg: number): boolean {
  if (isWhole(one) && isWhole(other)) return true;
  const startsDeg = other.fromDeg - one.fromDeg - byDeg;
  const longerDeg = other.toDeg - other.fromDeg - (one.toDeg - one.fromDeg);
  const turns = Math.round(startsDeg / WHOLE_DEG);
  return Math.abs(startsDeg - turns * WHOLE_DEG) < SAME_DEG && Math.abs(longerDeg) < SAME_DEG;
}
