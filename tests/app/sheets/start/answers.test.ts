import { describe, expect, it } from 'vitest';
import {
  type Answers,
  noAnswers,
  type SomeAnswers,
  withUnitOf,
} from '../../../../src/app/sheets/start/answers.ts';
import { newCorner } from '../../../../src/app/sheets/start/newCorner.ts';

const typed = (answers: SomeAnswers): Answers => ({ ...noAnswers('in'), ...answers });

describe('another unit of a new corner', () => {
  it('writes the old unit to lengths typed without one, so that none changes', () => {
    const before = typed({ kingpin: '11', width: '8 1/2 ±1/32', backspacing: '5 ±0.5' });
    const after = withUnitOf(before, 'mm');
    expect(after).toMatchObject({ unit: 'mm', kingpin: '11 in', width: '8 1/2 in ±1/32' });
    expect(after.backspacing).toBe('5 in ±0.5');
    expect(newCorner(after).sizes.own.kingpin).toBe(newCorner(before).sizes.own.kingpin);
    expect(newCorner(after).sizes.own.kingpin).toBeCloseTo(279.4, 9);
    expect(withUnitOf(after, 'in')).toMatchObject({ unit: 'in', kingpin: '11 in' });
  });

  it('leaves lengths with a unit, wrong texts and other fields unchanged', () => {
    const before = typed({
      kingpin: '280 mm',
      width: 'abc',
      rotorDiameter: '',
      diameterCode: '17',
      studCount: '5',
      name: '11',
    });
    expect(withUnitOf(before, 'mm')).toEqual({ ...before, unit: 'mm' });
  });
});
