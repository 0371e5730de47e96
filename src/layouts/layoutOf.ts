import type { Layout } from './layout.ts';
import { LAYOUTS } from './registry.ts';
import type { Carrier, Suspension } from './suspension.ts';

/** The layout of a suspension. Throws an Error if none has its name; the schema rejects such a file. */
export function layoutOf({ layout: name }: Pick<Suspension, 'layout'>): Layout {
  // A loop, because every assembly of a mechanism calls this.
  for (const layout of LAYOUTS) if (layout.name === name) return layout;
  throw new Error(`there is no suspension layout "${name}"`);
}

/** Members of a suspension, in the order of the result files. */
export const carriersOf = (suspension: Pick<Suspension, 'layout'>): Carrier[] =>
  Object.keys(layoutOf(suspension).carriers);

/** The names of all layouts together, each once. */
export const namesInAll = (namesOf: (layout: Layout) => readonly string[]): [string, ...string[]] =>
  [...new Set(LAYOUTS.flatMap(namesOf))] as [string, ...string[]];
