import { pointInFile } from '../../design/origin.ts';
import type { Corner, PartKind } from '../../design/schema.ts';
import { layoutOf } from '../../layouts/layoutOf.ts';
import { midpoint, type Vec3 } from '../../math/vec.ts';
import { WORKBENCH_KINDS } from '../../parts/workbenchKinds.ts';

type Starting = { kind: PartKind } & Record<string, unknown>;

/**
 * A part of a kind with starting dimensions, mm, chosen so that it is valid with the other parts of the corner. None of
 * them is measured.
 */
export const startingPart = (kind: PartKind, corner: Corner): Starting => ({
  kind,
  ...WORKBENCH_KINDS[kind].start(corner),
});
/** An optional group with starting dimensions; undefined if none are known. */
export function startingGroup(key: string, corner: Corner, part: number | undefined): unknown {
  const entry = part === undefined ? undefined : corner.parts[part];
  if (key === 'damper') {
    const { hardpoints } = corner.suspension;
    const { chassisMount, armMount, on } = layoutOf(corner.suspension).startingDamper(hardpoints);
    const rounded = (point: Vec3) => pointInFile(corner, point).map(Math.round);
    return { chassisMount: rounded(chassisMount), armMount: rounded(armMount), on };
  }
  if (key === 'zone')
    return {
      shape: 'sphere',
      centre: pointInFile(corner, corner.suspension.hardpoints.wheelCentre),
      radius: 20,
    };
  if (entry === undefined) return undefined;
  const groups: Readonly<Record<string, (entry: never, corner: Corner) => unknown>> =
    WORKBENCH_KINDS[entry.kind].groups;
  return groups[key]?.(entry as never, corner);
}

/** Distance between two stations of a measured barrel, mm. */
const NEXT_STATION_MM = 10;

/** Next item of a list, mm: for an outline a corner between the last and the first, for a barrel the next station. */
export function nextItem(items: readonly unknown[]): unknown {
  const [first, last] = [items[0], items[items.length - 1]];
  if (isPoint(first) && isPoint(last)) return midpoint(last, first);
  if (typeof last === 'object' && last !== null && 'depth' in last && typeof last.depth === 'number')
    return { ...last, depth: last.depth + NEXT_STATION_MM };
  return last;
}

const isPoint = (value: unknown): value is Vec3 =>
  Array.isArray(value) && value.length === 3 && value.every((n) => typeof n === 'number');
