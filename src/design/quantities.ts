import { z } from 'zod';
import { lineComplaint, linesComplaint } from './plainText.ts';

// Checks that are compiled need the right to make code out of text, which the page's policy gives to nobody.
z.config({ jitless: true });

/** Reads a length as typed; throws an Error whose message says what is wrong and what would be right. */
export type ReadLengthMm = (typed: string) => number;

/** Nothing on a corner is further off than this: a longer length is a slip of the unit. */
const LONGEST_MM = 1e5;

/** What a number of the file measures, for whoever shows or edits it; absent for counts, codes and directions. */
export type Measure = 'length' | 'angle';

/**
 * Schemas of the quantities of which a corner file is made. A length is a number of mm, or text that `readLengthMm`
 * reads, and comes out in mm. Each takes the description that people see in their editors. `originHeightMm`, the height of
 * the file's origin above the ground, is added to Z of every point.
 */
export function quantities(readLengthMm: ReadLengthMm, originHeightMm = 0) {
  const length = (check: (mm: number) => string | undefined, description: string | undefined, addedMm = 0) =>
    z
      .union([z.number(), z.string()])
      .transform((typed, ctx) => {
        let mm: number;
        try {
          mm = typeof typed === 'number' ? typed : readLengthMm(typed);
        } catch (error) {
          ctx.issues.push({ code: 'custom', message: (error as Error).message, input: typed });
          return z.NEVER;
        }
        const complaint = check(mm);
        if (complaint === undefined) return mm + addedMm;
        ctx.issues.push({ code: 'custom', message: complaint, input: typed });
        return z.NEVER;
      })
      .meta({ quantity: 'length' satisfies Measure, description });

  /** A length of either sign. */
  const coordinate = (description?: string, addedMm = 0) =>
    length(
      (mm) => (Math.abs(mm) < LONGEST_MM ? undefined : 'must be less than 100 m either way'),
      description,
      addedMm,
    );
  /** A length above zero. */
  const size = (description?: string) =>
    length(
      (mm) => (mm > 0 && mm < LONGEST_MM ? undefined : 'must be more than 0 and less than 100 m'),
      description,
    );
  /** A length of zero or more. */
  const extent = (description?: string) =>
    length(
      (mm) => (mm >= 0 && mm < LONGEST_MM ? undefined : 'must be 0 or more and less than 100 m'),
      description,
    );
  /** A point in vehicle axes; comes out with Z from the ground. */
  const point = (description?: string) =>
    z
      .tuple([coordinate('X, forward.'), coordinate('Y, to the left.'), coordinate('Z, up.', originHeightMm)])
      .meta({ description });
  /** A direction: three plain numbers, any length above zero. */
  const direction = (description?: string) =>
    z
      .tuple([z.number(), z.number(), z.number()])
      .refine(([x, y, zz]) => Math.hypot(x, y, zz) > 1e-9, 'a direction needs a length above 0')
      .meta({ description });
  const degrees = (least: number, most: number, description?: string) =>
    z
      .number()
      .min(least)
      .max(most)
      .meta({ quantity: 'angle' satisfies Measure, description });
  const count = (least: number, most: number, description?: string) =>
    z.int().min(least).max(most).meta({ description });

  return { coordinate, size, extent, point, direction, degrees, count };
}

export type Quantities = ReturnType<typeof quantities>;

/** Text on one line in which every character prints: names, labels, designations. */
export const line = () => z.string().check(refusing(lineComplaint));

/** Text of any number of lines, without control characters. */
export const lines = () => z.string().check(refusing(linesComplaint));

const refusing =
  (complaintOf: (text: string) => string | undefined): z.core.CheckFn<string> =>
  ({ value, issues }) => {
    const message = complaintOf(value);
    if (message !== undefined) issues.push({ code: 'custom', message, input: value });
  };
