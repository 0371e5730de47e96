import { withValue } from '../../../design/edit.ts';
import { valueAt } from '../../../design/path.ts';
import type { Corner } from '../../../design/schema.ts';
import { layoutOf } from '../../../layouts/layoutOf.ts';
import { inputOf } from '../../../layouts/steering.ts';
import { type LengthUnit, MM_PER_UNIT } from '../../../report/figures.ts';
import { parseLength } from '../../../units/parseLength.ts';

/** Digits of a pose as written in a file. */
const DECIMALS = { mm: 2, in: 4 } as const;

/** What is recorded of a gap on the mock-up. */
export interface TypedGap {
  between: readonly [string, string];
  /** Pose in hand, mm and fraction of lock. */
  travelMm: number;
  steer: number;
  /** The gap as typed. */
  gap: string;
  /** Empty if not typed. */
  by: string;
  /** `2026-03-01`. */
  on: string;
}

/** Reason why a text is no gap; undefined if it is one. */
export function gapProblem(text: string, unit: LengthUnit | undefined): string | undefined {
  if (text.trim() === '') return 'is missing; type the measured gap, with its ±, such as 1/8 ±1/32';
  try {
    return parseLength(text, { unit }).mm < 0 ? 'must be 0 or more' : undefined;
  } catch (error) {
    return (error as Error).message;
  }
}

/** A length as text in the unit. */
const written = (mm: number, unit: LengthUnit): string =>
  `${Number((mm / MM_PER_UNIT[unit]).toFixed(DECIMALS[unit]))} ${unit}`;

/** The file with one more gap of the mock-up. The pose is written in `unit`, rounded toward ride height and straight ahead. */
export function withGap(source: unknown, { suspension }: Corner, typed: TypedGap, unit: LengthUnit): unknown {
  const input = inputOf(suspension, typed.steer);
  const { quantity } = layoutOf(suspension).steering;
  const steering =
    input === 0
      ? {}
      : quantity === 'length'
        ? { rack: written(towardZero(input, unit), unit) }
        : { steerDeg: Number(input.toFixed(2)) };
  const before = valueAt(source, ['mockup']);
  const entry = {
    between: typed.between,
    travel: written(towardZero(typed.travelMm, unit), unit),
    ...steering,
    gap: typed.gap.trim(),
    on: typed.on,
    ...(typed.by.trim() === '' ? {} : { by: typed.by.trim() }),
  };
  return withValue(source, ['mockup'], [...(Array.isArray(before) ? before : []), entry]);
}

/** A length with as many decimals as are written, no further from 0: an end of travel stays within the travel. */
function towardZero(mm: number, unit: LengthUnit): number {
  const step = MM_PER_UNIT[unit] / 10 ** DECIMALS[unit];
  return Math.trunc(mm / step + Math.sign(mm) * 1e-6) * step;
}

/** The file without the gap at an index. */
export function withoutGap(source: unknown, index: number): unknown {
  const left = (valueAt(source, ['mockup']) as unknown[]).filter((_, at) => at !== index);
  return withValue(source, ['mockup'], left.length === 0 ? undefined : left);
}
