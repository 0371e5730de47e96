import type { Corner, ZoneEntry } from '../design/schema.ts';
import { cross, distance, length, normalize, sub } from '../math/vec.ts';
import type { Solid, Zone } from '../solids/solid.ts';
import { builtLengthText } from '../units/formatLength.ts';
import type { Problem } from '../units/problem.ts';
import { pivotBetween, rigidGroup } from './pivot.ts';

/**
 * Largest distance of a zone's centre from the pivot, mm: far below any measurement, above the rounding of typed
 * coordinates.
 */
const ON_PIVOT_MM = 0.1;
/** Largest angle between a slab's axis and a hinge, as its sine. */
const ALONG_HINGE = 1e-3;

export function readZone(zone: ZoneEntry): Zone {
  const what = 'as the corner file says';
  if (zone.shape === 'sphere') return { shape: 'sphere', centre: zone.centre, radiusMm: zone.radius, what };
  return {
    shape: 'slab',
    centre: zone.centre,
    axis: normalize(zone.axis),
    halfThicknessMm: zone.thickness / 2,
    radiusMm: zone.radius,
    what,
  };
}

/**
 * Problems of a zone that the file gives for two solids. A zone is fixed to both solids, so it must keep its place on
 * both as they move: a sphere about the point that they turn about, a slab or sphere about their hinge. It may not be
 * larger than the smaller solid. `index`: of the entry in `pairs`.
 */
export function zoneProblems(
  zone: ZoneEntry,
  index: number,
  [one, other]: readonly [Solid, Solid],
  corner: Corner,
): Problem[] {
  const path = `pairs[${index}].zone`;
  const found = JSON.stringify(zone.centre);
  const names = `"${one.id}" and "${other.id}"`;
  const problems: Problem[] = [];
  const misplaced = whyMisplaced(zone, one, other, corner);
  if (misplaced !== undefined) problems.push({ path: `${path}.centre`, found, message: misplaced });
  const acrossMm = Math.max(2 * zone.radius, zone.shape === 'slab' ? zone.thickness : 0);
  const leastMm = Math.min(longestMm(one), longestMm(other));
  if (acrossMm > leastMm)
    problems.push({
      path: `${path}.radius`,
      found: builtLengthText(zone.radius, corner.unit),
      message:
        `a zone ${builtLengthText(acrossMm, corner.unit)} across is larger than the smaller of ${names}, which is ${builtLengthText(leastMm, corner.unit)} long, ` +
        'and would cover all of it; make the zone no larger than the intended contact',
    });
  return problems;
}

function whyMisplaced(zone: ZoneEntry, one: Solid, other: Solid, corner: Corner): string | undefined {
  if (rigidGroup(one.carrier) === rigidGroup(other.carrier)) return undefined;
  const names = `"${one.id}" and "${other.id}"`;
  const pivot = pivotBetween(corner, one.carrier, other.carrier);
  if (pivot === undefined)
    return (
      `${names} have no common pivot, so no zone keeps its place on both; remove the zone, or set ` +
      '"check": false with a reason'
    );
  const fromPivot = sub(zone.centre, pivot.at);
  const offMm =
    pivot.axis === undefined ? distance(zone.centre, pivot.at) : length(cross(fromPivot, pivot.axis));
  if (offMm > ON_PIVOT_MM)
    return (
      `the centre is ${builtLengthText(offMm, corner.unit)} from ${pivot.name}, the pivot of ${names}; ` +
      'move the centre to the pivot'
    );
  if (zone.shape === 'sphere') return undefined;
  if (pivot.axis === undefined)
    return `${names} tilt about ${pivot.name}, so a slab does not keep its place on both; use a sphere`;
  return length(cross(normalize(zone.axis), pivot.axis)) > ALONG_HINGE
    ? `the slab's axis must lie along ${pivot.name}, the hinge of ${names}`
    : undefined;
}

/** Longest side of a solid's bounding box, mm. */
function longestMm({ mesh: { positions } }: Solid): number {
  const sides = [0, 1, 2].map((k) => {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let i = k; i < positions.length; i += 3) {
      low = Math.min(low, positions[i]);
      high = Math.max(high, positions[i]);
    }
    return high - low;
  });
  return Math.max(...sides);
}
