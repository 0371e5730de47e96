import { withGiven } from '../../design/assumed.ts';
import { withValue } from '../../design/edit.ts';
import { type Field, fieldsAt, type ValueField } from '../../design/fields.ts';
import { type Path, pathFrom, pathText, valueAt } from '../../design/path.ts';
import { suggest } from '../../design/suggest.ts';

/** A dimension that can be varied. */
export interface VariedField {
  /** Name as typed: "wheel.backspacing", "suspension.hardpoints.lowerJoint[2]". */
  name: string;
  path: Path;
  kind: 'length' | 'angle' | 'number' | 'count';
}

const VARIED: readonly string[] = ['length', 'angle', 'number', 'count'] satisfies VariedField['kind'][];

const partIds = (source: unknown): string[] => {
  const parts = valueAt(source, ['parts']);
  return Array.isArray(parts) ? parts.map((_, p) => String(valueAt(parts, [p, 'id']))) : [];
};

/**
 * Finds a field by its name: the id of its part, or "suspension", and the field's path. Throws an Error with the
 * mistake and the valid names if the name matches no field or a field without a number.
 */
export function variedField(source: unknown, name: string): VariedField {
  const path = pathOf(source, name);
  const owner = path.slice(0, path[0] === 'parts' ? 2 : 1);
  let fields: readonly Field[] = fieldsAt(source, owner);
  let found: Field | undefined;
  for (const step of path.slice(owner.length)) {
    const known = fields.filter(({ kind }) => kind === 'group' || kind === 'list' || VARIED.includes(kind));
    found = known.find(({ key }) => key === step);
    if (found === undefined) {
      const keys = known.map(({ key }) => String(key));
      throw new Error(
        `"${name}": "${String(step)}" is not a dimension.${suggest(String(step), keys)} Dimensions: ${keys.join(', ')}`,
      );
    }
    fields = found.kind === 'group' ? found.fields : found.kind === 'list' ? found.items : [];
  }
  if (found === undefined || found.kind === 'group' || found.kind === 'list') {
    const keys = fields.map(({ key }) => (typeof key === 'number' ? `${name}[${key}]` : `${name}.${key}`));
    throw new Error(`"${name}" has several values; name one of them: ${keys.join(', ')}`);
  }
  return { name, path, kind: (found as ValueField).kind as VariedField['kind'] };
}

/** The name of the field at a path of a part or of the suspension, as `variedField` reads it. */
export function variedName(source: unknown, path: Path): string {
  if (path[0] !== 'parts') return pathText(path);
  const rest = pathText(path.slice(2));
  return `${partIds(source)[path[1] as number]}${rest.startsWith('[') ? '' : '.'}${rest}`;
}

function pathOf(source: unknown, name: string): Path {
  const ids = partIds(source);
  // The longest first, because an id may be the start of another.
  const id = ids.filter((one) => name.startsWith(`${one}.`)).sort((a, b) => b.length - a.length)[0];
  const path =
    id === undefined
      ? pathFrom(name)
      : [...(['parts', ids.indexOf(id)] as const), ...(pathFrom(name.slice(id.length + 1)) ?? [])];
  if (path !== undefined && path.length > 1 && (id !== undefined || path[0] === 'suspension')) return path;
  const first = name.split(/[.[]/)[0];
  const names = [...ids, 'suspension'];
  const known = names.includes(first);
  const wrong = known
    ? `"${name}" has no field: write the field after a dot, such as "${first}.thickness"`
    : `"${first}" is not a part of this corner.${suggest(first, names)} Write the id of a part and its field, such as "wheel.backspacing". Parts: ${names.join(', ')}`;
  throw new Error(wrong);
}

/** Fields that give the same dimension in another way; a file may hold only one of them. */
const ALTERNATIVES: Readonly<Record<string, string>> = { offset: 'backspacing', backspacing: 'offset' };

/**
 * The file with another value in a field, marked as given by the user. If a wheel's offset or backspacing is varied,
 * the other one is removed.
 */
export function withAmount(source: unknown, { path, kind }: VariedField, amount: number): unknown {
  const owner = path.slice(0, 2);
  const other = ALTERNATIVES[String(path[2])];
  const isWheel = path.length === 3 && valueAt(source, [...owner, 'kind']) === 'wheel';
  const cleared =
    isWheel && other !== undefined && valueAt(source, [...owner, other]) !== undefined
      ? withGiven(source, [...owner, other], undefined)
      : source;
  return withGiven(cleared, path, kind === 'count' ? Math.round(amount) : amount);
}

/** The file without `measuredTo`: the ± of measured values does not limit the values that a study tries. */
export const withoutMeasuredTo = (source: unknown): unknown =>
  valueAt(source, ['measuredTo']) === undefined ? source : withValue(source, ['measuredTo'], undefined);
