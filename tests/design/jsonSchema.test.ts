import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { cornerJsonSchema } from '../../src/design/jsonSchema.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { type CornerInput, minimalCorner } from './fixtures.ts';

const validate = new Ajv2020({ allErrors: true, allowUnionTypes: true }).compile(cornerJsonSchema());

/** Paths at which a general JSON Schema validator finds the corner wrong after `change`. */
function wrongPlaces(change: (corner: CornerInput) => void): string[] {
  const corner = minimalCorner();
  change(corner);
  validate(corner);
  return (validate.errors ?? []).map((error) => error.instancePath);
}

describe('JSON Schema for editors', () => {
  it('is the file in public/ (npm run schema writes it)', () => {
    const path = new URL('../../public/corner.schema.json', import.meta.url);
    expect(JSON.parse(readFileSync(path, 'utf8'))).toEqual(cornerJsonSchema());
  });

  it('accepts a valid corner', () => {
    expect(wrongPlaces(() => {})).toEqual([]);
    expect(wrongPlaces((corner) => Object.assign(corner, { $schema: './corner.schema.json' }))).toEqual([]);
  });

  it('rejects single fields that parseDesign rejects', () => {
    const changes: [(corner: CornerInput) => void, string][] = [
      [(c) => Object.assign(c.suspension, { camberDeg: 50 }), '/suspension/camberDeg'],
      [(c) => Object.assign(c.suspension, { cambreDeg: 1 }), '/suspension'],
      [
        (c) => Object.assign(c.suspension.hardpoints, { lowerJoint: [1, 2] }),
        '/suspension/hardpoints/lowerJoint',
      ],
      [(c) => Object.assign(c.parts[0], { width: true }), '/parts/0/width'],
      [(c) => Object.assign(c.parts[0], { boltCount: 4.5 }), '/parts/0/boltCount'],
      [(c) => Object.assign(c, { side: 'rigth' }), '/side'],
    ];
    for (const [change, place] of changes) {
      expect(wrongPlaces(change)).toContain(place);
      const corner = minimalCorner();
      change(corner);
      expect(parseDesign(JSON.stringify(corner)).kind).toBe('bad');
    }
  });

  it('gives the unit of every length and angle', () => {
    const text = JSON.stringify(cornerJsonSchema());
    expect(text).not.toContain('"quantity"');
    const described = text.match(/A length: a number of mm, or text such as/g) ?? [];
    const either = text.match(/"type":\["number","string"\]/g) ?? [];
    expect(either.length).toBeGreaterThan(140);
    // All are lengths, except the ± of angles.
    expect(described).toHaveLength(either.length - 1);
    expect(text.match(/Degrees\./g)?.length).toBe(text.match(/(Deg|"angle)":\{/g)?.length);
  });
});
