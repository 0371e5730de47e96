import { lengthText } from '../units/formatLength.ts';
import type { ReadValues } from './inputs.ts';
import { valueAt } from './path.ts';
import type { Corner, cornerSchema, MockupEntry, PairEntry, PartEntry, Suspension } from './schema.ts';

/**
 * The readable pieces of a file, so that checks between fields run even if other fields are wrong. A piece that the schema
 * rejects is undefined.
 */
export interface Readable {
  /** The JSON of the file as typed. */
  source: unknown;
  /** A length as a problem shows it, in the file's unit. `rounding`: for a limit, the side on which it still holds. */
  lengthText(mm: number, rounding?: 'up' | 'down'): string;
  measuredTo: Corner['measuredTo'];
  driveShaft: Corner['driveShaft'];
  brakeHose: Corner['brakeHose'];
  suspension: Suspension | undefined;
  parts: readonly {
    id: string | undefined;
    /** Undefined if the file names no known kind. */
    kind: PartEntry['kind'] | undefined;
    entry: PartEntry | undefined;
  }[];
  pairs: readonly { between: readonly unknown[]; entry: PairEntry | undefined }[];
  mockup: readonly { between: readonly unknown[]; entry: MockupEntry | undefined }[];
}

/** `corner`: the parsed file if the schema accepted all of it; if undefined, each piece is parsed separately. */
export function readable(
  schema: ReturnType<typeof cornerSchema>,
  source: unknown,
  corner: Corner | undefined,
): Readable {
  const { measuredTo, driveShaft, brakeHose, suspension, parts, pairs, mockup } = schema.shape;
  const [kinds, pair] = [parts.element.def.options, pairs.def.innerType.element];
  const measured = mockup.def.innerType.element;
  const known = new Set<unknown>(kinds.map((option) => option.shape.kind.value));
  const declared = valueAt(source, ['unit']);
  const unit = declared === 'in' ? declared : 'mm';
  return {
    source,
    lengthText: (mm, rounding) => lengthText(mm, unit, rounding),
    measuredTo: corner?.measuredTo ?? measuredTo.safeParse(valueAt(source, ['measuredTo'])).data,
    driveShaft: corner?.driveShaft ?? driveShaft.safeParse(valueAt(source, ['driveShaft'])).data,
    brakeHose: corner?.brakeHose ?? brakeHose.safeParse(valueAt(source, ['brakeHose'])).data,
    suspension: corner?.suspension ?? suspension.safeParse(valueAt(source, ['suspension'])).data,
    parts: listAt(source, 'parts').map((typed, index) => {
      const [id, kind] = [valueAt(typed, ['id']), valueAt(typed, ['kind'])];
      return {
        id: typeof id === 'string' ? id : undefined,
        kind: known.has(kind) ? (kind as PartEntry['kind']) : undefined,
        entry: corner?.parts[index] ?? parts.element.safeParse(typed).data,
      };
    }),
    pairs: listAt(source, 'pairs').map((typed, index) => ({
      between: listAt(typed, 'between'),
      entry: corner?.pairs[index] ?? pair.safeParse(typed).data,
    })),
    mockup: listAt(source, 'mockup').map((typed, index) => ({
      between: listAt(typed, 'between'),
      entry: corner?.mockup?.[index] ?? measured.safeParse(typed).data,
    })),
  };
}

/** The values of the readable pieces; a part keeps its index. `unit`: that of the file. */
export const readValues = (
  { measuredTo, suspension, parts }: Readable,
  unit: Corner['unit'],
): ReadValues => ({
  unit,
  measuredTo,
  suspension,
  parts: parts.map(({ entry }) => entry),
});

function listAt(source: unknown, field: string): unknown[] {
  const value = valueAt(source, [field]);
  return Array.isArray(value) ? value : [];
}
