import type { Corner, PartEntry, PartKind } from '../design/schema.ts';
import type { Modeller } from './modeller.ts';
import type { Solid } from './solid.ts';

/** What a part's builder is given. */
export interface BuildContext {
  corner: Corner;
  modeller: Modeller;
  chordToleranceMm: number;
}

/** A solid before its place in the file is known: the catalogue adds part index, label and allowance. */
export type BuiltSolid = Omit<Solid, 'partIndex' | 'label' | 'allowanceMm'>;

/** Makes the solids of one entry. Throws an Error with a sentence for the person where dimensions contradict. */
export type Builder<E extends PartEntry> = (entry: E, context: BuildContext) => BuiltSolid[];

export type Builders = { [K in PartKind]: Builder<Extract<PartEntry, { kind: K }>> };
