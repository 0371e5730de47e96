import { originHeightMm } from '../../design/origin.ts';
import { type Path, pathText, valueAt } from '../../design/path.ts';
import type { Carrier, Hardpoints, Suspension } from '../../design/schema.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { parseLength } from '../../units/parseLength.ts';
import { fieldName, shownText } from '../bench/fieldText.ts';

/** A point of the suspension that is shown in the view and can be moved there. */
export interface ShownPoint {
  /** Its path in the file, as text: tells it from the others. */
  key: string;
  path: Path;
  /** "Lower joint". */
  name: string;
  /** What it moves with. */
  carrier: Carrier;
  /** Ride height, vehicle axes, left corner: as typed, or as last sound where what is typed is no point. */
  place: Vec3;
  /** What is typed for X, Y and Z. */
  texts: readonly [string, string, string];
}

const CARRIED: Record<keyof Hardpoints, Carrier> = {
  lowerArmFront: 'chassis',
  lowerArmRear: 'chassis',
  lowerJoint: 'lowerArm',
  upperArmFront: 'chassis',
  upperArmRear: 'chassis',
  upperJoint: 'upperArm',
  tieRodInner: 'rack',
  tieRodOuter: 'upright',
  wheelCentre: 'upright',
};

/** The points of a file in hand beside the last sound suspension. */
export function pointsOf(
  source: unknown,
  { hardpoints, damper }: Suspension,
  unit: LengthUnit | undefined,
): ShownPoint[] {
  const heightMm = originHeightMm(source, unit);
  const point = (path: Path, carrier: Carrier, sound: Vec3): ShownPoint => {
    const typed = [0, 1, 2].map((axis) => valueAt(source, [...path, axis]));
    const place = typed.map((value, axis) => {
      const mm = lengthMm(value, unit);
      if (mm === undefined) return sound[axis];
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
  const names = Object.keys(hardpoints) as (keyof Hardpoints)[];
  return [
    ...names.map((name) => point(['suspension', 'hardpoints', name], CARRIED[name], hardpoints[name])),
    ...(damper === undefined
      ? []
      : [
          point(['suspension', 'damper', 'chassisMount'], 'chassis', damper.chassisMount),
          point(['suspension', 'damper', 'armMount'], damper.on, damper.armMount),
        ]),
  ].filter(({ path }) => valueAt(source, path) !== undefined);
}

/** A length as it stands in a file, mm; undefined for what is none. */
export function lengthMm(typed: unknown, unit: LengthUnit | undefined): number | undefined {
  if (typeof typed === 'number') return typed;
  if (typeof typed !== 'string') return undefined;
  try {
    return parseLength(typed, { unit }).mm;
  } catch {
    return undefined;
  }
}

/** The point that a path of the file belongs to: its own or that of one of its coordinates. */
export const pointKeyAt = (path: Path | undefined): string | undefined =>
  path?.[0] === 'suspension' && (path[1] === 'hardpoints' || path[1] === 'damper') && path.length >= 3
    ? pathText(path.slice(0, 3))
    : undefined;
