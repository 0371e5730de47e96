import { z } from 'zod';
import type { Quantities } from '../units/quantities.ts';
import { KINDS, type PartKind } from './kinds.ts';

type EntryOption = ReturnType<(typeof KINDS)[PartKind]['schema']>;

/** The entries that `parts` may hold, distinguished by `kind`. Frames and signs: see `src/design/schema.ts`. */
export function partSchema(quantity: Quantities) {
  const options = Object.values(KINDS).map(({ schema }): EntryOption => schema(quantity));
  return z.discriminatedUnion('kind', options as [EntryOption, ...EntryOption[]]);
}
