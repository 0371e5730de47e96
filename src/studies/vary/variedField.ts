import { withGiven } from '../../design/assumed.ts';
import { type Field, fieldsAt, type ValueField } from '../../design/fields.ts';
import { type Path, pathFrom, valueAt } from '../../design/path.ts';
import { suggest } from '../../design/suggest.ts';

/** A dimension that can be varied. */
export interface VariedField {
  /** As a person names it: "wheel.backspacing", "suspension.hardpoints.lowerJoint[2]". */
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
 * The field that a person names by the id of its part and what it is called there, or of the suspension. Throws an Error
 * with what is wrong and what would be right, for a text that names none, or one that holds no figure.
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
        `"${String(step)}" of "${name}" is no dimension there.${suggest(String(step), keys)} There are: ${keys.join(', ')}`,
      );
    }
    fields = found.kind === 'group' ? found.fields : found.kind === 'list' ? found.items : [];
  }
  if (found === undefined || found.kind === 'group' || found.kind === 'list') {
    const keys = fields.map(({ key }) => (typeof key === 'number' ? `${name}[${key}]` : `${name}.${key}`));
    throw new Error(`"${name}" holds several values; name one of them: ${keys.join(', ')}`);
  }
  return { name, path, kind: (found as ValueField).kind as VariedField['kind'] };
}

function pathOf(source: unknown, name: string): Path {
  const ids = partIds(source);
  // The longest first: an id may begin with another.
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
    ? `"${name}" names no field: write the field after a point, "${first}.thickness"`
    : `"${first}" is no part of this corner.${suggest(first, names)} Write the id of a part and its field, "wheel.backspacing"; there are: ${names.join(', ')}`;
  throw new Error(wrong);
}

/** What stands for the same dimension in another way, so that a file may hold only one of them. */
const INSTEAD: Readonly<Record<string, string>> = { offset: 'backspacing', backspacing: 'offset' };

/**
 * The file with another value in a field, given by the person. The one of a wheel's offset and backspacing that is not
 * varied is left out, as the other then says where the wheel is.
 */
export function withAmount(source: unknown, { path, kind }: VariedField, amount: number): unknown {
  const owner = path.slice(0, 2);
  const other = INSTEAD[String(path[2])];
  const isWheel = path.length === 3 && valueAt(source, [...owner, 'kind']) === 'wheel';
  const cleared =
    isWheel && other !== undefined && valueAt(source, [...owner, other]) !== undefined
      ? withGiven(source, [...owner, other], undefined)
      : source;
  return withGiven(cleared, path, kind === 'count' ? Math.round(amount) : amount);
}
