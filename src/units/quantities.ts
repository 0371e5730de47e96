import { z } from 'zod';
import { degreesIn, parseAngle } from './angle.ts';
import { assetNameFault, lineFault, linesFault } from './plainText.ts';

// Compiled checks generate code from text, which the page's content policy forbids.
z.config({ jitless: true });

/** Reads a length as typed, in mm. Throws an Error whose message says what is wrong and what to write. */
export type ReadLengthMm = (typed: string) => number;

/** No length on a corner reaches this; a longer one has the wrong unit. */
const LONGEST_MM = 1e5;
/** No ± of an angle on a corner reaches this. */
const WIDEST_DEG = 90;

/** Quantity that a number of the file measures. Counts, codes and directions have none. */
export type Measure = 'length' | 'angle';

/**
 * Schemas of the quantities in a corner file. A length is a number of mm, or text that `readLengthMm` reads; its output is
 * in mm. An angle is a number of degrees. Each takes the line of help that is shown beside the field: what to measure, from where and with what.
 * `originHeightMm`, the height of the file's origin above the ground, is added to Z of every point.
 */
export function quantities(readLengthMm: ReadLengthMm, originHeightMm = 0) {
  const length = (check: (mm: number) => string | undefined, description: string, addedMm = 0) =>
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
        const fault = check(mm);
        if (fault === undefined) return mm + addedMm;
        ctx.issues.push({ code: 'custom', message: fault, input: typed });
        return z.NEVER;
      })
      .meta({ quantity: 'length' satisfies Measure, description });

  /** A length of either sign. */
  const coordinate = (description: string, addedMm = 0) =>
    length(
      (mm) => (Math.abs(mm) < LONGEST_MM ? undefined : 'must be between -100 m and 100 m'),
      description,
      addedMm,
    );
  /** A length above zero. */
  const size = (description: string) =>
    length(
      (mm) => (mm > 0 && mm < LONGEST_MM ? undefined : 'must be more than 0 and less than 100 m'),
      description,
    ).meta({ quantity: 'length' satisfies Measure, description, aboveZero: true });
  /** A length of zero or more. */
  const extent = (description: string) =>
    length(
      (mm) => (mm >= 0 && mm < LONGEST_MM ? undefined : 'must be 0 or more and less than 100 m'),
      description,
    );
  /** A point in vehicle axes; its output has Z from the ground. */
  const point = (description: string) =>
    z
      .tuple([
        coordinate(
          `${description} X: distance forward of the front axle line, negative behind it. Use a tape and a square.`,
        ),
        coordinate(
          `${description} Y: distance left of the vehicle's centre line, negative right of it. Use a tape and a square.`,
        ),
        coordinate(
          `${description} Z: height above the ground, or above the level that the origin height gives. Use a tape.`,
          originHeightMm,
        ),
      ])
      .meta({ description });
  /** A direction: three plain numbers, of any length above zero. */
  const direction = (description: string) => {
    const part = (axis: string) =>
      z.number().meta({ description: `${description} ${axis}: a plain number.` });
    return z
      .tuple([part('X, forward'), part('Y, to the left'), part('Z, up')])
      .refine(([x, y, zz]) => Math.hypot(x, y, zz) > 1e-9, 'must have at least one number other than 0')
      .meta({ description });
  };
  /** An angle: a number of degrees, or text that may have a ±; its output is in degrees. */
  const degrees = (least: number, most: number, description: string) =>
    z
      .union([z.number().min(least).max(most), z.string()])
      .transform((typed, ctx) => {
        if (typeof typed === 'number') return typed;
        const angle = parseAngle(typed);
        if (angle !== undefined && angle.degrees >= least && angle.degrees <= most) return angle.degrees;
        const message =
          angle === undefined
            ? 'is not an angle; write degrees, such as 12.5 or "12.5° ±0.5°"'
            : `must be from ${least}° to ${most}°`;
        ctx.issues.push({ code: 'custom', message, input: typed });
        return z.NEVER;
      })
      .meta({ quantity: 'angle' satisfies Measure, description });
  /** How far an angle may be off, above zero: a number of degrees, or text such as `0.5°`; its output is in degrees. */
  const angleError = (description: string) =>
    z
      .union([z.number(), z.string()])
      .transform((typed, ctx) => {
        const degrees = typeof typed === 'number' ? typed : degreesIn(typed);
        if (degrees > 0 && degrees < WIDEST_DEG) return degrees;
        const message = Number.isNaN(degrees)
          ? 'is not an angle; write degrees, such as 0.5 or "0.5°"'
          : `must be more than 0° and less than ${WIDEST_DEG}°`;
        ctx.issues.push({ code: 'custom', message, input: typed });
        return z.NEVER;
      })
      .meta({ quantity: 'angle' satisfies Measure, description });
  const count = (least: number, most: number, description: string) =>
    z.int().min(least).max(most).meta({ description });

  return { coordinate, size, extent, point, direction, degrees, angleError, count };
}

export type Quantities = ReturnType<typeof quantities>;

/** Text on one line, in which every character prints: a name, label or designation. */
export const line = () => z.string().check(rejecting(lineFault));

/** A day: `2026-03-01`. */
export const date = () => z.string().check(rejecting(dateFault));

const dateFault = (text: string): string | undefined =>
  z.iso.date().safeParse(text).success ? undefined : 'must be a day, written as 2026-03-01';

/** Text of any number of lines, without control characters. */
export const lines = () => z.string().check(rejecting(linesFault));

/** Name of a file in the folder of the corner file. */
export const assetName = () => z.string().check(rejecting(assetNameFault));

const rejecting =
  (faultOf: (text: string) => string | undefined): z.core.CheckFn<string> =>
  ({ value, issues }) => {
    const message = faultOf(value);
    if (message !== undefined) issues.push({ code: 'custom', message, input: value });
  };
