import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { type CornerInput, minimalCorner } from './fixtures.ts';
import { readDesign } from './readDesign.ts';

function hashAfter(change: (corner: CornerInput) => void): string {
  const corner = minimalCorner();
  change(corner);
  return readDesign(corner).hash;
}

const original = hashAfter(() => {});

describe('hash of a design', () => {
  it('is the SHA-256 of the sorted JSON, as Node computes it', () => {
    const result = readDesign(minimalCorner());
    const { name: _name, unit: _unit, ...numbers } = result.corner;
    const sorted = JSON.stringify(numbers, (_, value: unknown) =>
      typeof value === 'object' && value !== null && !Array.isArray(value)
        ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
        : value,
    );
    expect(original).toBe(createHash('sha256').update(sorted, 'utf8').digest('hex'));
  });

  it('does not change with names, order of fields, the form of a length, or a confirmed default', () => {
    const same: ((corner: CornerInput) => void)[] = [
      (c) => Object.assign(c, { name: 'Ärmel', note: 'x', $schema: './corner.schema.json' }),
      (c) => Object.assign(c.parts[0], { label: 'Front wheel' }),
      (c) => Object.assign(c.parts[0], { width: 203.2, lip: '1/2 in' }),
      (c) => Object.assign(c, { unit: 'in' }),
      (c) => {
        c.parts[0] = Object.fromEntries(Object.entries(c.parts[0]).reverse()) as (typeof c.parts)[0];
      },
    ];
    for (const change of same) expect(hashAfter(change)).toBe(original);
  });

  it('changes with any number, the order of parts, the side or a rule', () => {
    const other: ((corner: CornerInput) => void)[] = [
      (c) => Object.assign(c.parts[0], { width: 203.2000001 }),
      (c) => Object.assign(c, { side: 'right' }),
      (c) => c.parts.reverse(),
      (c) => Object.assign(c.pairs?.[0] ?? {}, { target: 3.5 }),
      (c) => Object.assign(c.parts[5], { id: 'knuckle' }),
      (c) => {
        c.pairs = [];
      },
    ];
    const hashes = other.map(hashAfter);
    expect(new Set([original, ...hashes]).size).toBe(other.length + 1);
  });
});
