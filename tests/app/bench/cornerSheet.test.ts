import { describe, expect, it } from 'vitest';
import { withFileUnit } from '../../../src/app/bench/fileUnit.ts';
import { freePair, namesIn } from '../../../src/app/bench/pairRules.ts';
import { parseDesign } from '../../../src/design/parse.ts';
import { valueAt } from '../../../src/design/path.ts';
import { entryOf, minimalCorner } from '../../design/fixtures.ts';

const read = (source: unknown) => {
  const parsed = parseDesign(JSON.stringify(source));
  if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
  return parsed.design;
};

describe('another unit of the file', () => {
  it('changes no length: those typed without a unit have theirs written out', () => {
    const source = { ...minimalCorner(), unit: 'in' as const };
    Object.assign(entryOf(source, 'rotor'), { thickness: '1 1/32 ±1/64', height: '1 7/8"' });
    Object.assign(entryOf(source, 'tyre'), { growth: '3/16' });
    const before = read(source);
    const changed = withFileUnit(source, before.inputs, 'in', 'mm');
    const after = read(changed);
    expect(after.hash).toBe(before.hash);
    expect(after.corner.unit).toBe('mm');
    const rotor = source.parts.findIndex(({ kind }) => kind === 'rotor');
    expect(valueAt(changed, ['parts', rotor, 'thickness'])).toBe('1 1/32 in ±1/64');
    expect(valueAt(changed, ['parts', rotor, 'height'])).toBe('1 7/8"');
    expect(valueAt(changed, ['parts', rotor, 'diameter'])).toBe(310);
    const tolerance = ({ inputs }: typeof before) =>
      inputs.find(({ path }) => path === `parts[${rotor}].thickness`)?.plusMinusMm;
    expect(tolerance(after)).toBe(tolerance(before));
  });
});

describe('rules for pairs', () => {
  it('may name every part, and each half of those made in two', () => {
    const ids = namesIn(minimalCorner()).map(({ id }) => id);
    expect(ids).toEqual(expect.arrayContaining(['wheel', 'hub', 'hub.housing', 'damper.body', 'damper.rod']));
    for (const id of ids) {
      const other = id === 'rotor' ? 'wheel' : 'rotor';
      const source = { ...minimalCorner(), pairs: [{ between: [id, other] as [string, string], target: 3 }] };
      expect(parseDesign(JSON.stringify(source)).kind, id).toBe('ok');
    }
  });

  it('begin with the pair that is wanted, else with the first that none is for', () => {
    const source = minimalCorner();
    expect(freePair(source, ['rotor', 'upright'])).toEqual(['rotor', 'upright']);
    expect(freePair(source, ['wheel', 'caliper'])).toEqual(['wheel', 'tyre']);
    expect(freePair({ ...source, pairs: [{ between: ['tyre', 'wheel'] }] }, [])).toEqual(['wheel', 'hub']);
  });
});
