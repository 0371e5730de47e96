import type { z } from 'zod';
import type { Quantities } from '../units/quantities.ts';

/** Schema of a kind's entries in `parts`. The description of each field is the line of help beside it. */
export type EntrySchema = (quantity: Quantities) => z.ZodObject;

/** Class of a solid, which determines the default targets of its pairs: see `src/sweep/targets.ts`. */
export type ClearanceClass =
  | 'wheel'
  | 'tyre'
  | 'rotor'
  | 'caliper'
  /** Other parts that the studs clamp. */
  | 'onStuds'
  /** Parts fixed to the upright, and bolts. */
  | 'atHub'
  | 'link'
  | 'damper'
  | 'chassis';

/** A solid that a part is built as. */
export interface SolidFacts {
  /** Word after the part's id and label: `hub.housing`. Undefined for a solid that is named as its part. */
  suffix?: string;
  clearance: ClearanceClass;
}

/** Selects parts of a kind; of spacers, those at one place. */
interface Host {
  kind: string;
  place?: 'wheel' | 'upright';
}

/** A kind of part without which another cannot be placed. */
interface Need {
  kind: string;
  why: string;
  /** If given, only an entry with this value needs it. */
  if?: { field: string; value: string };
}

/** All that the engine needs to know of a kind of part, except its builder. */
export interface PartKindRecord<Schema extends EntrySchema, Solid extends string> {
  /** Name on screen. */
  name: string;
  schema: Schema;
  /** Usual step of assembly: 0 for what carries the hub, 1 hub, 2 brake, 3 wheel. Common practice, no source. */
  step(entry: z.output<ReturnType<Schema>>): number;
  /**
   * The field of which a corner may have each value only once, and the role that a value gives; undefined if parts may be
   * alike.
   */
  only: { field: string; role(value: string): string } | undefined;
  needs: readonly Need[];
  /** The parts that it is mounted on or over: they must be fitted before it. */
  sitsOn: readonly Host[];
  /** Dimensions of which the first must be the smaller. A dot leads into a group. */
  order: readonly (readonly [smaller: string, relation: '<' | '<=', larger: string])[];
  /**
   * For parts that are bought as they are or come from a donor: the fields that can still be chosen. All others are fixed
   * unless the file frees them: see `src/design/fixed.ts`.
   */
  bought?: { free: readonly string[] };
  /** Whether it is clamped to other parts. The faces of those are built finely. */
  isClamped: boolean;
  /** The solids that it is built as. */
  solids: Readonly<Record<Solid, SolidFacts>>;
}

/** A plain shape beside the corner: what every such kind has alike. */
export const PLAIN_SHAPE = {
  step: () => 0,
  only: undefined,
  needs: [],
  sitsOn: [],
  order: [],
  isClamped: false,
} as const satisfies Partial<PartKindRecord<EntrySchema, string>>;

/** For kinds of which a corner has one part. */
export const ONE_OF_ITS_KIND: PartKindRecord<EntrySchema, string>['only'] = {
  field: 'kind',
  role: (kind) => `the ${kind}`,
};
