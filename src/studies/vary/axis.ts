/** One value of a varied dimension or list. */
export interface AxisValue {
  /** Display text, such as "4 1/4 in" or "17x9x5 1/2". */
  label: string;
  /** For a range: mm for a length, degrees for an angle, otherwise the number itself. */
  amount?: number;
  /** Returns the file, as JSON, with this value in place of its own. */
  change(source: unknown): unknown;
}

/** A dimension varied over a range, or a list of tyres or wheels. */
export interface Axis {
  /** Title, such as "wheel.backspacing" or "tyres". */
  title: string;
  /** At least one value; those of a range in ascending order. */
  values: readonly AxisValue[];
  /** For a list: index of the part that each value replaces. All pairs of that part are checked. */
  part?: number;
  /** For a range of values that are not whole: tolerance of a border, and the values in between. */
  finer?: { by: number; at(amount: number): AxisValue };
}

/** Largest number of values of one study; more would take too long. */
export const MAX_VALUES = 400;
