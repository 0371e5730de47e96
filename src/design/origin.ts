import type { Vec3 } from '../math/vec.ts';
import { parseLength } from '../units/parseLength.ts';
import { valueAt } from './path.ts';
import type { Corner } from './schema.ts';

/** Unit that a file declares for lengths typed without a unit. */
export type DeclaredUnit = Corner['unit'];

/** Height of a file's origin above the ground, mm; 0 if the file gives none or it cannot be read. */
export function originHeightMm(source: unknown, unit: DeclaredUnit): number {
  const typed = valueAt(source, ['originHeight']);
  if (typeof typed === 'number') return typed;
  if (typeof typed !== 'string') return 0;
  try {
    return parseLength(typed, { unit }).mm;
  } catch {
    return 0;
  }
}

/** Converts a point with Z from the ground to the file's coordinates: Z from the file's origin. */
export const pointInFile = ({ originHeight = 0 }: Pick<Corner, 'originHeight'>, [x, y, z]: Vec3): Vec3 => [
  x,
  y,
  z - originHeight,
];
