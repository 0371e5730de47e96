import { describe, expect, it } from 'vitest';
import { valuesIn } from '../../src/design/edit.ts';
import { fieldsAt } from '../../src/design/fields.ts';
import { pathText } from '../../src/design/path.ts';
import { partKinds } from '../../src/parts/kindOf.ts';
import { minimalCorner } from './fixtures.ts';
import { readDesign } from './readDesign.ts';

const source = minimalCorner();
const partOf = (kind: string) => source.parts.findIndex((part) => part.kind === kind);

describe('fields of a file', () => {
  it('of a wheel have kind, optionality, fallback and help', () => {
    const fields = fieldsAt(source, ['parts', partOf('wheel')]);
    const named = (key: string) => fields.find((field) => field.key === key);
    expect(named('width')).toMatchObject({ kind: 'length', typed: '8 in', optional: false });
    expect(named('backspacing')).toMatchObject({ kind: 'length', typed: undefined, optional: true });
    expect(named('wall')).toMatchObject({ kind: 'length', optional: true, fallback: 4 });
    expect(named('boltCount')).toMatchObject({ kind: 'count', fallback: 5 });
    expect(named('diameterCode')).toMatchObject({ kind: 'number', typed: 17 });
    expect(named('innerBarrel')).toMatchObject({ kind: 'list', length: undefined, least: 2, items: [] });
    expect(named('width')?.description).toMatch(/bead seats/);
  });

  it('include groups (present or not), lists and choices', () => {
    const caliper = fieldsAt(source, ['parts', partOf('caliper')]);
    const mount = caliper.find(({ key }) => key === 'mount');
    expect(mount).toMatchObject({ kind: 'group', optional: false });
    expect(valuesIn(caliper).find(({ path }) => path.at(-1) === 'boltRadius')).toMatchObject({
      path: ['parts', partOf('caliper'), 'mount', 'boltRadius'],
      typed: 125,
    });
    const arm = fieldsAt(source, ['parts', partOf('controlArm')]);
    expect(arm.find(({ key }) => key === 'gusset')).toMatchObject({ kind: 'group', typed: undefined });
    expect(arm.find(({ key }) => key === 'arm')).toMatchObject({
      kind: 'choice',
      choices: ['lower', 'upper'],
    });
    const joint = fieldsAt(source, ['parts', partOf('joint')]);
    expect(joint.find(({ key }) => key === 'boltDirection')).toMatchObject({
      kind: 'list',
      length: 3,
      items: [{ fallback: 0 }, { fallback: 0 }, { fallback: 1 }],
    });
    const points = fieldsAt(source, ['suspension', 'hardpoints']);
    expect(points).toHaveLength(9);
    expect(points[0]).toMatchObject({
      kind: 'list',
      length: 3,
      items: [{ kind: 'length', typed: 150 }, {}, {}],
    });
  });

  it('include every typed value of a valid corner, for every kind of part', () => {
    const design = readDesign(source);
    const known = new Set(valuesIn(fieldsAt(source, [])).map(({ path }) => pathText(path)));
    const inputs = design.inputs.filter(({ typed }) => typed !== undefined);
    expect(inputs.length).toBeGreaterThan(100);
    // Every typed value is among the fields, also those in the lists of parts and pairs.
    for (const { path } of inputs) expect(known, path).toContain(path);
    expect(partKinds()).toHaveLength(15);
    expect(fieldsAt({ parts: [{ kind: 'none' }] }, ['parts', 0])).toEqual([]);
  });
});
