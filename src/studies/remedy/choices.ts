import type { Design } from '../../design/design.ts';
import { valueAt } from '../../design/path.ts';
import { unitNamed } from '../../units/lengthUnits.ts';
import type { StudiedInput } from '../sensitivity/studiedInputs.ts';
import { typedAmount } from '../vary/typedAmount.ts';

/**
 * The values that a dimension may be changed to: whole multiples of a step that a shop can make or buy, on one side of the
 * value in the file. All steps and ranges are common practice, no source.
 */
export interface Choices {
  input: StudiedInput;
  /** 1 for larger values, -1 for smaller ones. */
  direction: 1 | -1;
  /** The value in the file: mm (the height of a point from the file's origin) or degrees. */
  from: number;
  /** The nearest first. */
  amounts: readonly number[];
  /** Step between two choices, mm or degrees. */
  step: number;
  /** Unit of the step of a length. */
  unit: 'mm' | 'in';
  /** Whether the step is that in which the part is sold. */
  isBought: boolean;
}

const INCH = 25.4;

/** Step of a length that is made. */
const MADE_MM = { mm: 1, in: INCH / 16 } as const;
/** Step of an angle, degrees. */
const ANGLE_DEG = 1;

/** Steps in which parts are sold, by kind of part and field. An offset is in mm on every wheel. */
const SOLD_MM: Readonly<Record<string, { mm: number; in?: number }>> = {
  'wheel.backspacing': { mm: INCH / 8, in: INCH / 8 },
  'wheel.offset': { mm: 5 },
  'spacer.thickness': { mm: 5, in: INCH / 4 },
};

/** A length changes by at most this much, or by a tenth of its value if that is more. */
const REACH_MM = { mm: 25, in: INCH } as const;
/** A size keeps at least this share of its value. */
const LEAST_SHARE = 0.5;
/** An angle changes by at most this much, degrees. */
const REACH_DEG = 15;

/** Rounding of Float64, in steps. */
const NOISE = 1e-6;

/** Fields of places that are no numbers of a point. */
const PLACES: ReadonlySet<unknown> = new Set(['hubFace', 'offset', 'backspacing']);

/** Whether a length is a place, of either sign, and no size. The lists of numbers in a file are points, except `size`. */
function isPlace(path: readonly (string | number)[]): boolean {
  const last = path[path.length - 1];
  return typeof last === 'number' ? path[path.length - 2] !== 'size' : PLACES.has(last);
}

/** The unit in which a length is typed, else the file's; mm if there is none. */
function unitOf(
  { source, corner: { unit = 'mm' } }: Design,
  path: readonly (string | number)[],
): 'mm' | 'in' {
  const typed = valueAt(source, path);
  const words = typeof typed === 'string' ? (typed.match(/[a-z]+|["″”'′’]/gi) ?? []) : [];
  const [written] = words.map(unitNamed).filter((name) => name !== undefined);
  if (written === undefined) return unit;
  return written === 'mm' || written === 'cm' || written === 'm' ? 'mm' : 'in';
}

/**
 * The choices for a value in one direction; none if no multiple of the step is within its range. `range`: how far the value
 * may change, mm or degrees; by default the usual range of its kind.
 */
export function choicesOf(design: Design, input: StudiedInput, direction: 1 | -1, range?: number): Choices {
  const { path, kind } = input.field;
  const from = typedAmount(design, input.field, input.input);
  const sold =
    path[0] === 'parts'
      ? SOLD_MM[`${valueAt(design.source, [...path.slice(0, 2), 'kind'])}.${path.slice(2).join('.')}`]
      : undefined;
  const steps = sold ?? MADE_MM;
  const unit = steps.in === undefined ? 'mm' : unitOf(design, path);
  const step = kind === 'angle' ? ANGLE_DEG : (steps[unit] ?? steps.mm);
  const usual = kind === 'angle' ? REACH_DEG : reachOf(from, unit, isPlace(path), direction);
  return {
    input,
    direction,
    from,
    amounts: multiplesBeyond(from, step, range ?? usual, direction),
    step,
    unit,
    isBought: sold !== undefined,
  };
}

function reachOf(from: number, unit: 'mm' | 'in', place: boolean, direction: 1 | -1): number {
  if (place) return REACH_MM[unit];
  const reach = Math.max(REACH_MM[unit], from / 10);
  return direction > 0 ? reach : Math.min(reach, from * (1 - LEAST_SHARE));
}

/** The multiples of a step beyond a value, up to `reach` from it. */
function multiplesBeyond(from: number, step: number, reach: number, direction: 1 | -1): number[] {
  const first = direction * (Math.floor((direction * from) / step + NOISE) + 1);
  const amounts: number[] = [];
  for (let n = first; direction * (n * step - from) <= reach + NOISE * step; n += direction)
    amounts.push(Number((n * step).toFixed(9)));
  return amounts;
}

/**
 * Number of the nearest choice, counted from 1, that is at least `distance` from the value in the file: rounded outward.
 * More than the number of choices if none is.
 */
export function stepAtLeast({ amounts, from }: Pick<Choices, 'amounts' | 'from'>, distance: number): number {
  const index = amounts.findIndex((amount) => Math.abs(amount - from) >= distance);
  return index < 0 ? amounts.length + 1 : index + 1;
}
