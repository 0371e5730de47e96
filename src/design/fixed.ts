import { kindOf, partKinds } from '../parts/kindOf.ts';
import { covers, listedBy, ownerOf } from './assumed.ts';
import { type Path, valueAt } from './path.ts';

/**
 * Values that a proposal of changes leaves alone. Each part, and the suspension, may have a mark `fixed`: true for all of
 * its values, false for none, or a list of paths as in `assumed`, in addition to what is fixed by default.
 *
 * Fixed by default are parts that are bought or come from a donor, except what can be chosen when they are bought or fitted
 * (`bought` of the kind), and static camber and toe.
 */

/** Values of the suspension that are fixed by default: the alignment that the driver chose. */
const FIXED_ALIGNMENT: ReadonlySet<unknown> = new Set(['camberDeg', 'toeDeg']);

/** Whether the value at a path of a file is fixed. A value outside of parts and suspension is. */
export function isFixed(source: unknown, path: Path): boolean {
  const owner = ownerOf(path);
  if (owner === undefined) return true;
  const mark = valueAt(source, [...owner, 'fixed']);
  if (typeof mark === 'boolean') return mark;
  const inner = path.slice(owner.length);
  return (
    listedBy(source, owner, 'fixed').some((listed) => covers(listed, inner)) ||
    isFixedByDefault(source, owner, inner[0])
  );
}

function isFixedByDefault(source: unknown, owner: Path, field: string | number): boolean {
  if (owner[0] === 'suspension') return FIXED_ALIGNMENT.has(field);
  const kind = partKinds().find((one) => one === valueAt(source, [...owner, 'kind']));
  const bought = kind === undefined ? undefined : kindOf(kind).bought;
  return bought !== undefined && !bought.free.includes(String(field));
}
