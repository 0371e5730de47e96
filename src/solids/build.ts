import type { Corner, PartEntry, PartKind } from '../design/schema.ts';
import type { Modeller } from './modeller.ts';
import type { Solid } from './solid.ts';

/** Input of a part's builder. */
export interface BuildContext {
  corner: Corner;
  modeller: Modeller;
  chordToleranceMm: number;
  /** Leaves out meshes that are shown and not measured, where they take long. */
  measuredOnly?: boolean;
}

/** A solid without part index, label and allowance, which the catalogue adds. */
export type BuiltSolid = Omit<Solid, 'partIndex' | 'label' | 'allowanceMm'>;

/** Builds the solids of one entry. Throws an Error with a sentence for the user if dimensions contradict. */
export type Builder<E extends PartEntry> = (entry: E, context: BuildContext) => BuiltSolid[];

export type Builders = { [K in PartKind]: Builder<Extract<PartEntry, { kind: K }>> };
