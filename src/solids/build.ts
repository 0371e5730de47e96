import type { Corner, PartEntry, PartKind } from '../design/schema.ts';
import type { Model, Modeller } from './modeller.ts';
import type { Solid } from './solid.ts';

/** Input of a part's builder. */
export interface BuildContext {
  corner: Corner;
  modeller: Modeller;
  chordToleranceMm: number;
  /** Leaves out meshes that are shown and not measured, where they take long. */
  measuredOnly?: boolean;
  /** See `piece`. Builds the piece, or reuses it; without it, each call of `piece` builds. */
  piece?: PieceMaker;
  /** See `modelOf`. Makes the model, or reuses it. */
  model?: <M extends Model>(key: string, make: () => M) => M;
}

export type PieceBuild<E, T> = (entry: E, context: BuildContext) => T;

/** Makes a piece at a chord tolerance. */
export type PieceMaker = <E, T>(name: string, chordToleranceMm: number, build: PieceBuild<E, T>) => T;

/**
 * A piece of a part, reused while nothing that `build` read has changed, even if the rest of the part has. `build` must read
 * all that it needs from the entry and the context that it is given. `name`: unique in the part.
 */
export const piece = <E, T>(name: string, entry: E, context: BuildContext, build: PieceBuild<E, T>): T =>
  context.piece?.(name, context.chordToleranceMm, build) ?? build(entry, context);

/**
 * A model, reused while `key` is the same: if it only moves. `key` must hold everything that the model is made of, and what
 * kind of model it is.
 */
export const modelOf = <M extends Model>(key: string, { model }: BuildContext, make: () => M): M =>
  model?.(key, make) ?? make();

/** A context with another chord tolerance. A spread would read all of the corner, so that each change of it would count. */
export const withChordTolerance = (context: BuildContext, chordToleranceMm: number): BuildContext =>
  Object.create(context, { chordToleranceMm: { value: chordToleranceMm, enumerable: true } });

/** A solid without part index, label and allowance, which the catalogue adds. */
export type BuiltSolid = Omit<Solid, 'partIndex' | 'label' | 'allowanceMm'>;

/** Builds the solids of one entry. Throws an Error with a sentence for the user if dimensions contradict. */
export type Builder<E extends PartEntry> = (entry: E, context: BuildContext) => BuiltSolid[];

export type Builders = { [K in PartKind]: Builder<Extract<PartEntry, { kind: K }>> };
