import { describe, expect, it } from 'vitest';
import { valueAt } from '../../../src/design/path.ts';
import { tyreAxis, wheelAxis } from '../../../src/studies/vary/listAxes.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { boxCorner } from './boxCorner.ts';

const source = minimalCorner();

describe('a list of tyres', () => {
  it("replaces the corner's tyre without its measured dimensions", () => {
    const measured = structuredClone(source);
    Object.assign(measured.parts[1], {
      label: 'All-terrain',
      overallDiameter: 740,
      treadWidth: '8 in',
      assumed: ['treadWidth'],
    });
    const axis = tyreAxis(measured, '# those in the shed\n245/65R17\n\n  31x10.5R17LT \r\n');
    expect([axis.title, axis.part, axis.finer, axis.values.map(({ label }) => label)]).toEqual([
      'tyre',
      1,
      undefined,
      ['245/65R17', '31x10.5R17LT'],
    ]);
    expect(valueAt(axis.values[1].change(measured), ['parts', 1])).toEqual({
      id: 'tyre',
      kind: 'tyre',
      designation: '31x10.5R17LT',
      growth: 4,
    });
  });

  it('needs a tyre to replace, and one on the list', () => {
    expect(() => tyreAxis(boxCorner([]), '245/65R17')).toThrow('the corner has no tyre');
    expect(() => tyreAxis(source, '# none\n \n')).toThrow('the list holds no tyre');
    expect(() => tyreAxis(source, '245/65R17\n'.repeat(401))).toThrow('holds 401 tyres; at most 400');
  });
});

describe('a list of wheels', () => {
  it('reads diameter, width and backspacing, in inches if no unit is typed', () => {
    const measured = structuredClone(source);
    const innerBarrel = [-100, 0].map((depth) => ({ depth, radius: 195 }));
    Object.assign(measured.parts[0], { label: 'Steel', innerBarrel, wall: 5 });
    const axis = wheelAxis(measured, '17x9x5 1/2\n17 X 8.5 × 140 mm\n16x8x4-3/8');
    const parts = axis.values.map(({ change }) => valueAt(change(measured), ['parts', 0]));
    expect(parts[0]).toEqual({
      id: 'wheel',
      kind: 'wheel',
      diameterCode: 17,
      width: 9 * 25.4,
      backspacing: 139.7,
      wall: 5,
      boltCircle: '4 1/2 in',
    });
    expect(parts[1]).toMatchObject({ diameterCode: 17, width: 215.9, backspacing: 140 });
    expect(parts[2]).toMatchObject({ diameterCode: 16, width: 203.2, backspacing: 4.375 * 25.4 });
  });

  it.each([
    ['17x9', /line 1, "17x9": must have 3 dimensions, not 2; write diameter x width x backspacing/],
    ['\n17x9x5x1', /line 2, .* must have 3 dimensions, not 4/],
    ['17 in x9x5', /"17 in" is not a rim diameter/],
    ['16.5x8x4', /"16.5" is not a rim diameter/],
    ['17x9x5 1/0', /line 1, .*"5 1\/0" is not a length/],
    ['17xx5', /line 1, .*is not a length: it is empty/],
  ])('rejects an invalid line with its number and the reason: %j', (list, message) => {
    expect(() => wheelAxis(source, list)).toThrow(message);
  });
});
