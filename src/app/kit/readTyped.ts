import type { LengthUnit } from '../../report/figures.ts';
import { LengthError, parseLength } from '../../units/parseLength.ts';

/** A typed value, or the problem with it; both undefined if nothing is typed. */
export interface Read {
  value: number | undefined;
  problem: string | undefined;
}

const NOTHING: Read = { value: undefined, problem: undefined };

/** A typed length in mm within bounds. */
export function readLength(
  text: string,
  unit: LengthUnit | undefined,
  leastMm: number,
  mostMm: number,
): Read {
  if (text.trim() === '') return NOTHING;
  try {
    const { mm } = parseLength(text, unit === undefined ? {} : { unit });
    if (mm >= leastMm && mm <= mostMm) return { value: mm, problem: undefined };
    return { value: undefined, problem: `must be from ${leastMm} to ${mostMm} mm` };
  } catch (error) {
    if (error instanceof LengthError) return { value: undefined, problem: error.message };
    throw error;
  }
}

/** A typed number from 0 to 0.5. */
export function readKFactor(text: string): Read {
  if (text.trim() === '') return NOTHING;
  const value = Number(text.trim().replace(',', '.'));
  if (value >= 0 && value <= 0.5) return { value, problem: undefined };
  return { value: undefined, problem: 'must be a number from 0 to 0.5' };
}
