import { describe, expect, it } from 'vitest';
import { cornerSchema } from '../../src/design/schema.ts';
import { bare } from '../../src/design/schemaWalk.ts';
import { kindOf, partKinds } from '../../src/parts/kindOf.ts';
import { WORKBENCH_KINDS } from '../../src/parts/workbenchKinds.ts';

const options = cornerSchema(Number).shape.parts.element.def.options;

/** Whether a kind has a field; a dot leads into a group. */
function hasField(kind: string, path: string): boolean {
  let schema: unknown = options.find((option) => option.shape.kind.value === kind);
  for (const step of path.split('.')) {
    const { shape } = bare(schema as Parameters<typeof bare>[0]) as { shape?: Record<string, unknown> };
    schema = shape?.[step];
    if (schema === undefined) return false;
  }
  return true;
}

describe.each(partKinds())('the record of %s', (kind) => {
  const record = kindOf(kind);

  it('names kinds that exist', () => {
    const named = [...record.needs, ...record.sitsOn].map((one) => one.kind);
    expect(named.filter((one) => !(partKinds() as string[]).includes(one))).toEqual([]);
    expect(named).not.toContain(kind);
  });

  it('names fields that it has', () => {
    const keys = Object.values(WORKBENCH_KINDS[kind].solids).flatMap(({ key }) =>
      key.map(([field]) => field),
    );
    const named = [
      ...keys,
      ...record.order.flatMap(([smaller, , larger]) => [smaller, larger]),
      ...record.needs.flatMap((need) => (need.if === undefined ? [] : [need.if.field])),
      ...(record.only === undefined ? [] : [record.only.field]),
    ];
    expect(named.filter((field) => !hasField(kind, field))).toEqual([]);
  });

  it('gives its solids distinct ids', () => {
    const suffixes = Object.values(record.solids).map(({ suffix }) => suffix);
    expect(new Set(suffixes).size).toBe(suffixes.length);
  });
});
