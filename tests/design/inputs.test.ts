import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { InputRecord } from '../../src/design/design.ts';
import { inputsOf } from '../../src/design/inputs.ts';
import { type Corner, cornerSchema } from '../../src/design/schema.ts';
import { minimalCorner } from './fixtures.ts';
import { readDesign } from './readDesign.ts';

const { inputs } = readDesign(minimalCorner());
const at = (path: string): InputRecord | undefined => inputs.find((input) => input.path === path);

describe('inputs', () => {
  it('keep the typed text with the value, and its tolerance', () => {
    expect(at('parts[3].height')).toEqual({
      path: 'parts[3].height',
      typed: '1 7/8" ±1/64',
      value: 47.625,
      quantity: 'length',
      plusMinus: { amount: 0.396875, from: 'typed' },
      assumed: false,
    });
    expect(at('parts[3].diameter')).toMatchObject({ typed: 310, value: 310, plusMinus: undefined });
    expect(at('suspension.hardpoints.wheelCentre[2]')).toMatchObject({ typed: 370, quantity: 'length' });
    expect(at('suspension.camberDeg')).toMatchObject({ value: -1, quantity: 'angle', assumed: false });
    expect(at('parts[1].designation')).toMatchObject({ value: '245/65R17', quantity: 'other' });
  });

  it('mark every unconfirmed default', () => {
    expect(at('parts[0].lip')).toEqual({
      path: 'parts[0].lip',
      typed: undefined,
      value: 12.7,
      quantity: 'length',
      plusMinus: undefined,
      assumed: true,
    });
    expect(at('suspension.steering.rackDirection[1]')).toMatchObject({ value: 1, assumed: true });
    const confirmed = minimalCorner();
    Object.assign(confirmed.parts[0], { lip: '1/2 in' });
    const record = readDesign(confirmed).inputs.find(({ path }) => path === 'parts[0].lip');
    expect(record).toMatchObject({ typed: '1/2 in', value: 12.7, assumed: false });
  });

  it('include every value of the corner once', () => {
    const leaves = (value: unknown): number => {
      if (value === undefined) return 0;
      if (typeof value !== 'object' || value === null) return 1;
      return Object.values(value).reduce<number>((sum, child) => sum + leaves(child), 0);
    };
    expect(inputs).toHaveLength(leaves(readDesign(minimalCorner()).corner));
    expect(new Set(inputs.map(({ path }) => path)).size).toBe(inputs.length);
  });
});

interface JsonNode {
  type?: string;
  quantity?: string;
  properties?: Record<string, JsonNode>;
  items?: JsonNode;
  prefixItems?: JsonNode[];
  oneOf?: JsonNode[];
  const?: unknown;
}

/**
 * Every numeric place under a node, with its quantity, from the JSON Schema that zod makes: an independent list of the
 * places that the walk must reach.
 */
function numericPlaces(node: JsonNode, path: (string | number)[]): [(string | number)[], string][] {
  if (node.quantity !== undefined) return [[path, node.quantity]];
  if (node.type === 'number' || node.type === 'integer') return [[path, 'none']];
  if (node.properties !== undefined) {
    return Object.entries(node.properties).flatMap(([key, child]) => numericPlaces(child, [...path, key]));
  }
  if (node.prefixItems !== undefined) {
    return node.prefixItems.flatMap((child, i) => numericPlaces(child, [...path, i]));
  }
  return node.items === undefined ? [] : numericPlaces(node.items, [...path, 0]);
}

describe('quantities', () => {
  const schema = cornerSchema(Number);
  const root = z.toJSONSchema(schema, { io: 'input', target: 'draft-2020-12' }) as JsonNode;
  const parts = root.properties?.parts.items?.oneOf ?? [];
  const pair = root.properties?.pairs.items?.properties ?? {};
  const zones = pair.zone.oneOf ?? [];
  const suspensions = root.properties?.suspension.oneOf ?? [];

  /** Every numeric place: its path, its quantity in the schema, and a value that selects the union options on the way. */
  const expected = [
    ...numericPlaces(
      {
        properties: {
          ...root.properties,
          suspension: {},
          parts: {},
          pairs: { items: { properties: { ...pair, zone: {} } } },
        },
      },
      [],
    ).map(([path, quantity]) => ({ path, quantity, value: {} as unknown })),
    ...suspensions.flatMap((option) =>
      numericPlaces(option, ['suspension']).map(([path, quantity]) => ({
        path,
        quantity,
        value: { suspension: { layout: option.properties?.layout.const } } as unknown,
      })),
    ),
    ...parts.flatMap((option) =>
      numericPlaces(option, ['parts', 0]).map(([path, quantity]) => ({
        path,
        quantity,
        value: { parts: [{ kind: option.properties?.kind.const }] } as unknown,
      })),
    ),
    ...zones.flatMap((option) =>
      numericPlaces(option, ['pairs', 0, 'zone']).map(([path, quantity]) => ({
        path,
        quantity,
        value: { pairs: [{ zone: { shape: option.properties?.shape.const } }] } as unknown,
      })),
    ),
  ];

  it('are tested for every kind', () => {
    expect(parts).toHaveLength(15);
    expect(zones).toHaveLength(2);
    expect(expected.map(({ path }) => path.join('.'))).toContain('pairs.0.target');
    expect(expected.length).toBeGreaterThan(180);
    expect(expected.filter(({ quantity }) => quantity === 'length').length).toBeGreaterThan(140);
  });

  it('of every numeric field are the same in the walk and in the schema', () => {
    for (const { path, quantity, value } of expected) {
      // The walk on a corner that has this place only.
      const corner = structuredClone(value) as Record<string | number, unknown>;
      let holder = corner;
      path.slice(0, -1).forEach((step, i) => {
        holder[step] ??= typeof path[i + 1] === 'number' ? [] : {};
        holder = holder[step] as typeof holder;
      });
      holder[path[path.length - 1]] = 1.5;
      const found = inputsOf(schema, {}, corner as unknown as Corner).find((record) => record.value === 1.5);
      expect(found?.quantity, path.join('.')).toBe(quantity === 'none' ? 'other' : quantity);
      // The ± of all angles is typed with its unit.
      const isAngle = /Deg$|^measuredTo\.angle$/.test(path.join('.'));
      expect(quantity === 'angle', path.join('.')).toBe(isAngle);
    }
  });

  it('other than length and angle are counts, codes, shares and directions', () => {
    const names = expected
      .filter(({ quantity }) => quantity === 'none')
      .map(({ path }) => [...path].reverse().find((step) => typeof step === 'string'));
    expect([...new Set(names)].sort()).toEqual([
      'at',
      'axis',
      'boltCount',
      'boltDirection',
      'count',
      'diameterCode',
      'eyeDirection',
      'fitted',
      'frontBrakePercent',
      'housingDirection',
      'innerDirection',
      'mountBoltCount',
      'rackDirection',
      'spokes',
      'studCount',
      'version',
    ]);
  });
});
