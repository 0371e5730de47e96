import { kindOf } from '../parts/kindOf.ts';
import type { Corner, PartEntry } from './schema.ts';

/**
 * The step of assembly in which a part is put on: the one in the file, else the usual one. A tyre goes on with its wheel.
 */
export function assemblyStep({ parts }: Corner, entry: PartEntry): number {
  const wheel = entry.kind === 'tyre' ? parts.find(({ kind }) => kind === 'wheel') : undefined;
  const fittedPart = wheel ?? entry;
  const fitted = fittedPart.kind === 'tyre' ? undefined : fittedPart.fitted;
  return fitted ?? kindOf(fittedPart.kind).step(fittedPart);
}
