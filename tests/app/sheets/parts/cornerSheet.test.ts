import { describe, expect, it } from 'vitest';
import { freePair, namesIn } from '../../../../src/app/sheets/parts/pairRules.ts';
import { withFileUnit } from '../../../../src/app/state/fileUnit.ts';
import { parseDesign } from '../../../../src/design/parse.ts';
import { valueAt } from '../../../../src/design/path.ts';
import { entryOf, minimalCorner } from '../../../design/fixtures.ts';
import { readDesign } from '../../../design/readDesign.ts';

describe('another unit of the file', () => {
  it('changes no length: the old unit is written to those typed without one', () => {
    const source = { ...minimalCorner(), unit: 'in' as const };
    Object.assign(entryOf(source, 'rotor'), { thickness: '1 1/32 ±1/64', height: '1 7/8"' });
    Object.assign(entryOf(source, 'tyre'), { growth: '3/16' });
    const before = readDesign(source);
    const changed = withFileUnit(source, before.inputs, 'in', 'mm');
    const after = readDesign(changed);
    expect(after.hash).toBe(before.hash);
    expect(after.corner.unit).toBe('mm');
    const rotor = source.parts.findIndex(({ kind }) => kind === 'rotor');
    expect(valueAt(changed, ['parts', rotor, 'thickness'])).toBe('1 1/32 in ±1/64');
    expect(valueAt(changed, ['parts', rotor, 'height'])).toBe('1 7/8"');
    expect(valueAt(changed, ['parts', rotor, 'diameter'])).toBe(310);
    const tolerance = ({ inputs }: typeof before) =>
      inputs.find(({ path }) => path === `parts[${rotor}].thickness`)?.plusMinus?.amount;
    expect(tolerance(after)).toBe(tolerance(before));
  });
});

describe('pair rules', () => {
  it('may name every part, and both halves of parts built as two solids', () => {
    const ids = namesIn(minimalCorner()).map(({ id }) => id);
    expect(ids).toEqual(expect.arrayContaining(['wheel', 'hub', 'hub.housing', 'damper.body', 'damper.rod']));
    for (const id of ids) {
      const other = id === 'rotor' ? 'wheel' : 'rotor';
      const source = { ...minimalCorner(), pairs: [{ between: [id, other] as [string, string], target: 3 }] };
      expect(parseDesign(JSON.stringify(source)).kind, id).toBe('ok');
    }
  });

  it('start with the preferred pair if it has no rule, else with the first pair without one', () => {
    const source = minimalCorner();
    expect(freePair(source, ['rotor', 'upright'])).toEqual(['rotor', 'upright']);
    expect(freePair(source, ['wheel', 'caliper'])).toEqual(['wheel', 'tyre']);
    expect(freePair({ ...source, pairs: [{ between: ['tyre', 'wheel'] }] }, [])).toEqual(['wheel', 'hub']);
  });
});
