import type { LengthUnit } from '../../units/lengthUnits.ts';
import { LengthError, parseLength } from '../../units/parseLength.ts';

export type TypedRange = readonly [from: number, to: number];

/** Largest travel of a range, mm. */
const MOST_TRAVEL_MM = 2000;

/**
 * Reads a range of travel as typed: `-100mm..100mm`, bump positive. Lengths without a unit are in `unit`, mm by default. In mm.
 * Throws a RangeError with what is wrong and what to do.
 */
export const readTravelRange = (text: string, unit: LengthUnit | undefined): TypedRange =>
  readRange(
    text,
    MOST_TRAVEL_MM,
    `two lengths from -${MOST_TRAVEL_MM} to ${MOST_TRAVEL_MM} mm with two dots between, -100mm..100mm`,
    (end) => {
      try {
        return parseLength(end.replace('−', '-'), { unit: unit ?? 'mm' }).mm;
      } catch (error) {
        if (!(error instanceof LengthError)) throw error;
        throw new RangeError(`${error.message}. Give two lengths, -100mm..100mm.`);
      }
    },
  );

/**
 * Reads a range of steer as typed: `-0.5..1`, from -1 to 1, left positive. Throws a RangeError with what is wrong and what to do.
 */
export const readSteerRange = (text: string): TypedRange =>
  readRange(text, 1, 'two numbers from -1 to 1 with two dots between, -0.5..1', (end) =>
    end.trim() === '' ? Number.NaN : Number(end.replace('−', '-')),
  );

function readRange(text: string, most: number, allowed: string, read: (end: string) => number): TypedRange {
  const ends = text.split('..');
  const [from, to] = ends.map(read);
  if (ends.length === 2 && from >= -most && to <= most && from <= to) return [from, to];
  throw new RangeError(`"${text}" is not allowed. Give ${allowed}, the larger last.`);
}
