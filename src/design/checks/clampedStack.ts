import { type AxialDepths, axialDepths, entriesOf } from '../axialDepths.ts';
import { boltDimensions } from '../fasteners/boltDimensions.ts';
import { readFastenerSize } from '../fasteners/fastenerSizes.ts';
import type { Path } from '../path.ts';
import type { Readable } from '../readable.ts';
import type { Entry, PartKind } from '../schema.ts';
import { assumedNote, type Check, type Report } from './report.ts';

/** Tolerance for rounding in sums of lengths and in conversion from inches, mm; far below any tolerance of manufacture. */
export const ROUNDING_MM = 1e-9;

/** An entry with its place in the file. */
export interface Placed<K extends PartKind> {
  entry: Entry<K>;
  path: Path;
}

/** The parts clamped on the studs, and those between bearing housing and upright. */
export interface ClampedStack {
  depths: AxialDepths;
  hub: Placed<'hub'> | undefined;
  wheel: Placed<'wheel'> | undefined;
  upright: Placed<'upright'> | undefined;
  rotors: readonly Placed<'rotor'>[];
  /** Spacers of each place, in order from the hub or housing. */
  wheelSpacers: readonly Placed<'spacer'>[];
  uprightSpacers: readonly Placed<'spacer'>[];
  /** The set of bolts with a value of `joins`. */
  bolts(joins: Entry<'bolts'>['joins']): Entry<'bolts'> | undefined;
  lengthText: Readable['lengthText'];
  /** `36 mm`, or `36 mm, as assumed` if the value is assumed. */
  valueText(dimension: Dimension): string;
}

/** A stack that has a hub. */
export interface HubStack extends ClampedStack {
  hub: Placed<'hub'>;
}

const MEMBERS: readonly PartKind[] = ['hub', 'wheel', 'upright', 'rotor', 'spacer', 'bolts'];

/**
 * A check between parts that are clamped together. It does not run if one of these parts cannot be read, since depths
 * depend on all of them.
 */
export const stackCheck =
  (check: (stack: ClampedStack, report: Report) => void): Check =>
  ({ parts, source, lengthText }, report) => {
    const concerned = parts.filter(({ kind }) => kind === undefined || MEMBERS.includes(kind));
    if (concerned.some(({ entry }) => entry === undefined)) return;
    const entries = parts.flatMap(({ entry }) => (entry === undefined ? [] : [entry]));
    const placed = <K extends PartKind>(kind: K): Placed<K>[] =>
      parts.flatMap(({ entry }, index) =>
        entry?.kind === kind ? [{ entry: entry as Entry<K>, path: ['parts', index] }] : [],
      );
    const spacers = placed('spacer');
    const stack: ClampedStack = {
      depths: axialDepths(entries),
      hub: placed('hub')[0],
      wheel: placed('wheel')[0],
      upright: placed('upright')[0],
      rotors: placed('rotor'),
      wheelSpacers: spacers.filter(({ entry }) => entry.place === 'wheel'),
      uprightSpacers: spacers.filter(({ entry }) => entry.place === 'upright'),
      bolts: (joins) => entriesOf(entries, 'bolts').find((bolts) => bolts.joins === joins),
      lengthText,
      valueText: (dimension) => `${lengthText(dimension.mm)}${assumedNote(source, pathOf(dimension))}`,
    };
    check(stack, report);
  };

/** A check of the hub against the parts clamped to it; it does not run if the file has no hub. */
export const hubStackCheck = (check: (stack: HubStack, report: Report) => void): Check =>
  stackCheck((stack, report) => {
    const { hub } = stack;
    if (hub !== undefined) check({ ...stack, hub }, report);
  });

type Relation = 'less than' | 'at most' | 'at least' | 'more than';

/** A dimension of a part; in `field`, a dot leads into a group. */
export interface Dimension {
  part: { entry: { id: string }; path: Path };
  field: string;
  mm: number;
}

type LengthField<E> = { [F in keyof E]-?: E[F] extends number ? F : never }[keyof E] & string;

/** A dimension that every part of the kind has. */
export const dimensionOf = <K extends PartKind>(
  part: Placed<K>,
  field: LengthField<Entry<K>>,
): Dimension => ({ part, field, mm: part.entry[field] as number });

const SATISFIES: Readonly<Record<Relation, (mm: number, limitMm: number) => boolean>> = {
  'less than': (mm, limitMm) => mm < limitMm - ROUNDING_MM,
  'at most': (mm, limitMm) => mm <= limitMm + ROUNDING_MM,
  'at least': (mm, limitMm) => mm >= limitMm - ROUNDING_MM,
  'more than': (mm, limitMm) => mm > limitMm + ROUNDING_MM,
};

/** Direction in which a limit is rounded for display, so that the shown value satisfies it. */
const LIMIT_ROUNDING: Readonly<Record<Relation, 'up' | 'down'>> = {
  'less than': 'down',
  'at most': 'down',
  'at least': 'up',
  'more than': 'up',
};

/** Reports a dimension that violates its limit, with the reason for the limit. */
export function requireLimit(
  stack: ClampedStack,
  report: Report,
  dimension: Dimension,
  relation: Relation,
  limitMm: number,
  why: string,
): void {
  if (SATISFIES[relation](dimension.mm, limitMm)) return;
  report(
    pathOf(dimension),
    `is ${stack.valueText(dimension)}, and must be ${relation} ${stack.lengthText(limitMm, LIMIT_ROUNDING[relation])}: ${why}`,
  );
}

const pathOf = ({ part, field }: Dimension): Path => [...part.path, ...field.split('.')];

/** `pilotDiameter of "hub" is 66 mm, as assumed`. */
export const dimensionText = (stack: ClampedStack, dimension: Dimension): string =>
  `${dimension.field} of "${dimension.part.entry.id}" is ${stack.valueText(dimension)}`;

/** Diameter of the bolts of a set, mm; 0 if there is no set, or if another check reports its size. */
export function boltDiameterMm(bolts: Entry<'bolts'> | undefined): number {
  try {
    return bolts === undefined ? 0 : readFastenerSize(bolts.size).diameterMm;
  } catch {
    return 0;
  }
}

/** Diameter of the wider of nut and washer of a set, mm; 0 if another check reports its size. */
export function nutDiameterMm(bolts: Entry<'bolts'>): number {
  try {
    const { nut, washer } = boltDimensions(bolts);
    return Math.max(nut?.roundMm ?? 0, washer?.acrossMm ?? 0);
  } catch {
    return 0;
  }
}
