import { originHeightMm } from '../../../design/origin.ts';
import { type Path, pathText, valueAt } from '../../../design/path.ts';
import type { Carrier, Suspension } from '../../../design/schema.ts';
import { layoutOf } from '../../../layouts/layoutOf.ts';
import type { Vec3 } from '../../../math/vec.ts';
import type { LengthUnit } from '../../../report/figures.ts';
import { parseLength } from '../../../units/parseLength.ts';
import { fieldName, shownText } from '../../state/fieldText.ts';

/** A point of the suspension that is shown in the view and can be moved there. */
export interface ShownPoint {
  /** Its path in the file, as text; unique. */
  key: string;
  path: Path;
  /** "Lower joint". */
  name: string;
  /** The carrier it moves with. */
  carrier: Carrier;
  /** At ride height, vehicle axes, left corner, mm: as typed; for a coordinate that is not a length, the last valid value. */
  place: Vec3;
  /** The typed X, Y and Z. */
  texts: readonly [string, string, string];
}

/** The points of the edited file; values that are not lengths come from the last valid suspension. */
export function pointsOf(
  source: unknown,
  suspension: Suspension,
  unit: LengthUnit | undefined,
): ShownPoint[] {
  const heightMm = originHeightMm(source, unit);
  const point = (path: Path, carrier: Carrier, lastValid: Vec3): ShownPoint => {
    const typed = [0, 1, 2].map((axis) => valueAt(source, [...path, axis]));
    const place = typed.map((value, axis) => {
      const mm = lengthMm(value, unit);
      if (mm === undefined) return lastValid[axis];
      return axis === 2 ? mm + heightMm : mm;
    });
    return {
      key: pathText(path),
      path,
      name: fieldName(path[path.length - 1]),
      carrier,
      place: place as unknown as Vec3,
      texts: typed.map((value) => shownText({ kind: 'length', typed: value })) as [string, string, string],
    };
  };
  const { hardpoints, damper } = suspension;
  const { points } = layoutOf(suspension);
  return [
    ...Object.entries(hardpoints).map(([name, place]) =>
      point(['suspension', 'hardpoints', name], points[name]?.carrier ?? 'upright', place),
    ),
    ...(damper === undefined
      ? []
      : [
          point(['suspension', 'damper', 'chassisMount'], 'chassis', damper.chassisMount),
          point(['suspension', 'damper', 'armMount'], damper.on, damper.armMount),
        ]),
  ].filter(({ path }) => valueAt(source, path) !== undefined);
}

/** A length of a file, mm; undefined if the value is not a length. */
export function lengthMm(typed: unknown, unit: LengthUnit | undefined): number | undefined {
  if (typeof typed === 'number') return typed;
  if (typeof typed !== 'string') return undefined;
  try {
    return parseLength(typed, { unit }).mm;
  } catch {
    return undefined;
  }
}

/** Key of the point to which a path of the file belongs; the path may be that of a coordinate. */
export const pointKeyAt = (path: Path | undefined): string | undefined =>
  path?.[0] === 'suspension' && (path[1] === 'hardpoints' || path[1] === 'damper') && path.length >= 3
    ? pathText(path.slice(0, 3))
    : undefined;
