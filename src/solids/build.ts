import type { Corner, PartEntry, PartKind } from '../design/schema.ts';
import type { Modeller } from './modeller.ts';
import type { Solid } from './solid.ts';

/** Input of a part's builder. */
export interface BuildContext {
  corner: Corner;
  modeller: Modeller;
  chordToleranceMm: number;
}

/** A solid without part index, label and allowance, which the catalogue adds. */
export type BuiltSolid = Omit<Solid, 'partIndex' | 'label' | 'allowanceMm'>;

/** Builds the solids of one entry. Throws an Error with a sentence for the user if dimensions contradict. */
export type Builder<E extends PartEntry> = (entry: E, context: BuildContext) => BuiltSolid[];

export type Builders = { [K in PartKind]: Builder<Extract<PartEntry, { kind: K }>> };
