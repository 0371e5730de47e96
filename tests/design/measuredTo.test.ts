import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { figuresIn } from '../../src/report/figures.ts';
import { inputSection } from '../../src/report/inputSection.ts';
import { type CornerInput, entryOf, minimalCorner } from './fixtures.ts';
import { readDesign } from './readDesign.ts';

const measured = (measuredTo: CornerInput['measuredTo']) => ({ ...minimalCorner(), measuredTo });
const problemsIn = (source: unknown) => {
  const read = parseDesign(JSON.stringify(source));
  return read.kind === 'bad' ? read.problems.map(({ path, message }) => `${path}: ${message}`) : [];
};

describe('measuredTo', () => {
  const { inputs } = readDesign(measured({ length: '1/32 in', angle: '0.5°' }));
  const plusMinusAt = (path: string) => inputs.find((input) => input.path === path)?.plusMinus;

  it('gives each measured length and angle its ±, and a typed ± overrides it', () => {
    expect(plusMinusAt('parts[3].diameter')).toEqual({ amount: 25.4 / 32, from: 'measuredTo' });
    expect(plusMinusAt('suspension.hardpoints.lowerJoint[2]')).toEqual({
      amount: 25.4 / 32,
      from: 'measuredTo',
    });
    expect(plusMinusAt('suspension.camberDeg')).toEqual({ amount: 0.5, from: 'measuredTo' });
    expect(plusMinusAt('parts[3].height')).toEqual({ amount: 25.4 / 64, from: 'typed' });
  });

  it('is overridden by the ± typed with an angle, which is text then', () => {
    const source = measured({ angle: 0.5 });
    Object.assign(source.suspension, { camberDeg: '−0.75° ±0.1°' });
    const { corner, inputs: read } = readDesign(source);
    expect(corner.suspension.camberDeg).toBe(-0.75);
    expect(read.find(({ path }) => path === 'suspension.camberDeg')).toMatchObject({
      typed: '−0.75° ±0.1°',
      value: -0.75,
      plusMinus: { amount: 0.1, from: 'typed' },
    });
    Object.assign(source.suspension, { camberDeg: '20° ±0.1°' });
    expect(problemsIn(source)).toEqual(['suspension.camberDeg: must be from -15° to 15°']);
    Object.assign(source.suspension, { camberDeg: '1° ±0' });
    expect(problemsIn(source)).toEqual([
      'suspension.camberDeg: is not an angle; write degrees, such as 12.5 or "12.5° ±0.5°"',
    ]);
  });

  it('gives none to defaults, assumed values, allowances, targets, counts and itself', () => {
    expect(plusMinusAt('parts[0].lip')).toBeUndefined();
    expect(plusMinusAt('parts[4].allowance')).toBeUndefined();
    expect(plusMinusAt('pairs[0].target')).toBeUndefined();
    expect(plusMinusAt('parts[0].diameterCode')).toBeUndefined();
    expect(plusMinusAt('measuredTo.length')).toBeUndefined();
    const assumed = measured({ length: 1 });
    Object.assign(entryOf(assumed, 'rotor'), { assumed: ['diameter'] });
    const { inputs: listed } = readDesign(assumed);
    expect(listed.find(({ path }) => path === 'parts[3].diameter')).toMatchObject({
      assumed: true,
      plusMinus: undefined,
    });
    expect(listed.find(({ path }) => path === 'suspension.camberDeg')?.plusMinus).toBeUndefined();
  });

  it('is the ± that the report shows', () => {
    const rows = JSON.stringify(
      inputSection(readDesign(measured({ length: 1, angle: 0.5 })), figuresIn('mm')),
    );
    expect(rows).toContain('"diameter","310","310.00 mm","1.00 mm",""');
    expect(rows).toContain('"suspension.camberDeg","-1","-1°","0.5°",""');
  });

  it('does not change the hash', () => {
    expect(readDesign(measured({ length: 1, angle: 1 })).hash).toBe(readDesign(minimalCorner()).hash);
  });

  it.each([
    [{ length: 0 }, 'measuredTo.length: must be more than 0 and less than 100 m'],
    [{ length: '1/32' }, ''],
    [{ angle: 0 }, 'measuredTo.angle: must be more than 0° and less than 90°'],
    [{ angle: 'half' }, 'measuredTo.angle: is not an angle; write degrees, such as 0.5 or "0.5°"'],
    [
      { angle: true },
      'measuredTo.angle: is not allowed here; write an angle: a number of degrees, or text such as "0.5°"',
    ],
    [{ width: 1 }, 'measuredTo.width: is not a field known here.'],
  ])('%j has the problem "%s"', (measuredTo, problem) => {
    expect(problemsIn(measured(measuredTo as CornerInput['measuredTo']))).toEqual(
      problem === '' ? [] : [problem],
    );
  });
});

describe('a ± that is not less than its value', () => {
  it('is a problem of a size, typed or from measuredTo', () => {
    const typed = minimalCorner();
    Object.assign(entryOf(typed, 'rotor'), { thickness: '2 mm ±3' });
    expect(problemsIn(typed)).toContain(
      'parts[3].thickness: has a ± of 3 mm, which must be less than the value, 2 mm; write a smaller ±',
    );
    const thin = measured({ length: 5 });
    Object.assign(entryOf(thin, 'wheel'), { wall: 4 });
    expect(problemsIn(thin)).toContain(
      'parts[0].wall: is 4 mm, and must be more than the ± of measuredTo, 5 mm; type its own ± with it, such as "4 mm ±0.4 mm"',
    );
  });

  it('is reported beside other problems', () => {
    const wrong = { ...measured({ length: 5 }), side: 'up' };
    Object.assign(entryOf(wrong as CornerInput, 'wheel'), { wall: 4 });
    const paths = problemsIn(wrong).map((problem) => problem.split(':')[0]);
    expect(paths).toEqual(expect.arrayContaining(['side', 'parts[0].wall']));
  });

  it('is none of a coordinate, or of a length that may be 0', () => {
    const source = measured({ length: 5 });
    Object.assign(source.suspension.hardpoints, { lowerJoint: ['0 mm ±2', 700, 220] });
    Object.assign(entryOf(source, 'tyre'), { growth: '0 mm ±2' });
    const paths = problemsIn(source).map((problem) => problem.split(':')[0]);
    expect(paths.filter((path) => /lowerJoint|growth|camber/.test(path))).toEqual([]);
  });
});
