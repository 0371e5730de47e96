import { describe, expect, it } from 'vitest';
import { type Answers, noAnswers, withUnitOf } from '../../../src/app/start/answers.ts';
import { newCorner } from '../../../src/app/start/newCorner.ts';

const typed = (answers: Partial<Answers>): Answers => ({ ...noAnswers('in'), ...answers });

describe('another unit of a new corner', () => {
  it('writes the unit of before to lengths typed without one, so that none changes', () => {
    const before = typed({ kingpin: '11', width: '8 1/2 ±1/32', backspacing: '5 ±0.5' });
    const after = withUnitOf(before, 'mm');
    expect(after).toMatchObject({ unit: 'mm', kingpin: '11 in', width: '8 1/2 in ±1/32' });
    expect(after.backspacing).toBe('5 in ±0.5');
    expect(newCorner(after).sizes.kingpin).toBe(newCorner(before).sizes.kingpin);
    expect(newCorner(after).sizes.kingpin).toBeCloseTo(279.4, 9);
    expect(withUnitOf(after, 'in')).toMatchObject({ unit: 'in', kingpin: '11 in' });
  });

  it('leaves alone lengths with a unit, what is no length, and what is typed elsewhere', () => {
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
