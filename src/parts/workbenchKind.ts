import type { z } from 'zod';
import { entriesOf } from '../design/axialDepths.ts';
import { pointInFile } from '../design/origin.ts';
import type { Corner, Entry } from '../design/schema.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import { add, type Vec3 } from '../math/vec.ts';
import type { KINDS, PartKind } from './kinds.ts';

type EntryInFile<K extends PartKind> = z.input<ReturnType<(typeof KINDS)[K]['schema']>>;

/** Names of the groups and lists that a part may leave out. */
type GroupName<K extends PartKind> = {
  [F in keyof Entry<K>]-?: undefined extends Entry<K>[F]
    ? NonNullable<Entry<K>[F]> extends object
      ? F
      : never
    : never;
}[keyof Entry<K>];

/** How a solid is shown. */
export interface SolidLook {
  /** Colour: see `src/app/state/looks.ts`. */
  tone: string;
  /** Opacity as glass, for a solid that would hide the parts inside it. */
  glass?: number;
  /** Dimensions for the parts list: field, text before, text after. The first one that the part has is shown. */
  key: readonly (readonly [field: string, before: string, after: string])[];
}

/** What the workbench needs to know of a kind of part. Starting dimensions are mm, and none of them is measured. */
export interface WorkbenchKind<K extends PartKind> {
  /** Starting dimensions that are valid with the other parts of a corner. */
  start(corner: Corner): Omit<EntryInFile<K>, 'id' | 'kind'>;
  /** Starting dimensions of the groups and lists that a part may leave out. */
  groups: {
    [G in Exclude<GroupName<K>, 'assumed' | 'fixed'>]: (
      entry: Entry<K>,
      corner: Corner,
    ) => NonNullable<EntryInFile<K>[G & keyof EntryInFile<K>]>;
  };
  solids: Readonly<Record<keyof (typeof KINDS)[K]['solids'], SolidLook>>;
}

/** The first part of a kind; undefined if the corner has none. */
export const firstOf = <K extends PartKind>(corner: Corner, kind: K): Entry<K> | undefined =>
  entriesOf(corner.parts, kind)[0];

/** Colour of plain shapes. */
export const SHAPE_TONE = '#8f8c84';

/** The first name that no part uses; the first of all if every name is used. */
export function freeName(names: object, isUsed: (name: string) => boolean): string {
  const all = Object.keys(names);
  return all.find((name) => !isUsed(name)) ?? all[0];
}

/** A point of the file, moved from one of the chassis beside the suspension. */
export function besideChassis(corner: Corner, by: Vec3): [number, number, number] {
  const { suspension } = corner;
  const beside = layoutOf(suspension).chassisPoint(suspension.hardpoints);
  return [...add(pointInFile(corner, beside).map(Math.round) as unknown as Vec3, by)];
}
