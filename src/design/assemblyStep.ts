import type { Corner, Entry, PartEntry } from './schema.ts';

/** Steps of assembly of bolts where the file says none, by what they join. Common practice, no source. */
const BOLTS_STEP: Readonly<Record<Entry<'bolts'>['joins'], number>> = {
  hubMount: 1,
  rotor: 2,
  caliperMount: 2,
  wheel: 3,
};

/** When a part is put on where nobody says otherwise: what carries the hub, hub, brake, wheel. Common practice, no source. */
export function usualStep(entry: PartEntry): number {
  switch (entry.kind) {
    case 'bolts':
      return BOLTS_STEP[entry.joins];
    case 'hub':
      return 1;
    case 'spacer':
      return entry.place === 'upright' ? 1 : 3;
    case 'rotor':
    case 'caliper':
      return 2;
    case 'wheel':
    case 'tyre':
      return 3;
    default:
      return 0;
  }
}

/**
 * The step of assembly in which a part of a corner is put on: the one that the file gives, else the usual one. A tyre goes
 * on with its wheel.
 */
export function assemblyStep({ parts }: Corner, entry: PartEntry): number {
  const wheel = entry.kind === 'tyre' ? parts.find(({ kind }) => kind === 'wheel') : undefined;
  const put = wheel ?? entry;
  return (put.kind === 'tyre' ? undefined : put.fitted) ?? usualStep(put);
}
