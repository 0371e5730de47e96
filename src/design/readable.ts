import { lengthText } from '../units/formatLength.ts';
import { valueAt } from './path.ts';
import type { Corner, cornerSchema, PairEntry, PartEntry, Suspension } from './schema.ts';

/**
 * As much of a file as can be read, so that checks between its fields run even while other fields are wrong: what the
 * schema refused is undefined here.
 */
export interface Readable {
  /** The JSON as it stands in the file. */
  source: unknown;
  /** A length as a problem shows it, in the file's unit; a limit rounded to the side that keeps it. */
  lengthText(mm: number, rounding?: 'up' | 'down'): string;
  suspension: Suspension | undefined;
  parts: readonly {
    id: string | undefined;
    /** Undefined where the file names no kind that is known. */
    kind: PartEntry['kind'] | undefined;
    entry: PartEntry | undefined;
  }[];
  pairs: readonly { between: readonly unknown[]; entry: PairEntry | undefined }[];
}

/** `corner` is the whole file's result where the schema accepted it; otherwise each piece is read on its own. */
export function readable(
  schema: ReturnType<typeof cornerSchema>,
  source: unknown,
  corner: Corner | undefined,
): Readable {
  const { suspension, parts, pairs } = schema.shape;
  const [kinds, pair] = [parts.element.def.options, pairs.def.innerType.element];
  const known = new Set<unknown>(kinds.map((option) => option.shape.kind.value));
  const declared = valueAt(source, ['unit']);
  const unit = declared === 'in' ? declared : 'mm';
  return {
    source,
    lengthText: (mm, rounding) => lengthText(mm, unit, rounding),
    suspension: corner?.suspension ?? suspension.safeParse(valueAt(source, ['suspension'])).data,
    parts: listAt(source, 'parts').map((typed, index) => {
      const [id, kind] = [valueAt(typed, ['id']), valueAt(typed, ['kind'])];
      return {
        id: typeof id === 'string' ? id : undefined,
        kind: known.has(kind) ? (kind as PartEntry['kind']) : undefined,
        entry: corner?.parts[index] ?? parts.element.safeParse(typed).data,
      };
    }),
    pairs: listAt(source, 'pairs').map((typed, index) => {
      const between = valueAt(typed, ['between']);
      return {
        between: Array.isArray(between) ? between : [],
        entry: corner?.pairs[index] ?? pair.safeParse(typed).data,
      };
    }),
  };
}

function listAt(source: unknown, field: string): unknown[] {
  const value = valueAt(source, [field]);
  return Array.isArray(value) ? value : [];
}
