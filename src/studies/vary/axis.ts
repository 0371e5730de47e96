/** One value of what is varied. */
export interface AxisValue {
  /** As people write it: "4 1/4 in", "17x9x5 1/2". */
  label: string;
  /** Of a range: mm for a length, degrees for an angle, the number itself otherwise. */
  amount?: number;
  /** The file, as JSON, with this value in place of its own. */
  change(source: unknown): unknown;
}

/** What is varied: a dimension over a range, or a list. */
export interface Axis {
  /** "wheel.backspacing", "tyres". */
  title: string;
  /** At least one; those of a range from the least to the most. */
  values: readonly AxisValue[];
  /** Of a list: the part of the file that each takes the place of, by its index; it is judged in all its pairs. */
  part?: number;
  /** Of a range whose values are not whole: how closely a border is found, and the values that lie between. */
  finer?: { by: number; at(amount: number): AxisValue };
}

/** Most values of one study: beyond it nobody waits for the answer. */
export const MOST_VALUES = 400;
