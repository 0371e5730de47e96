import { KINDS, type PartKind, type SolidKind } from './kinds.ts';
import type { EntrySchema, PartKindRecord, SolidFacts } from './partKind.ts';

/** The record of a kind that is known at run time only. */
export const kindOf = (kind: PartKind): PartKindRecord<EntrySchema, string> => KINDS[kind];

/** The kinds of parts that a file may hold. */
export const partKinds = (): PartKind[] => Object.keys(KINDS) as PartKind[];

const SOLIDS = Object.assign({}, ...partKinds().map((kind) => kindOf(kind).solids)) as Readonly<
  Record<SolidKind, SolidFacts>
>;

export const solidFacts = (kind: SolidKind): SolidFacts => SOLIDS[kind];

/** Ids of the solids of a part. */
export const solidIds = (id: string, kind: PartKind): string[] =>
  Object.values(kindOf(kind).solids).map(({ suffix }) => (suffix === undefined ? id : `${id}.${suffix}`));
