import { describe, expect, it } from 'vitest';
import { valueAt } from '../../../src/design/path.ts';
import { rangeAxis } from '../../../src/studies/vary/rangeAxis.ts';
import { variedField, withAmount } from '../../../src/studies/vary/variedField.ts';
import { minimalCorner } from '../../design/fixtures.ts';

const source = minimalCorner();
const axisOf = (name: string, range: Parameters<typeof rangeAxis>[1], unit: 'mm' | 'in' = 'mm') =>
  rangeAxis(variedField(source, name), range, unit);
const labels = (...args: Parameters<typeof axisOf>) => axisOf(...args).values.map(({ label }) => label);

describe('a varied field', () => {
  it.each([
    ['wheel.offset', ['parts', 0, 'offset'], 'length'],
    ['wheel.diameterCode', ['parts', 0, 'diameterCode'], 'number'],
    ['wheel.spokes', ['parts', 0, 'spokes'], 'count'],
    ['caliper.clockingDeg', ['parts', 4, 'clockingDeg'], 'angle'],
    ['caliper.mount.boltRadius', ['parts', 4, 'mount', 'boltRadius'], 'length'],
    ['tyre.overallDiameter', ['parts', 1, 'overallDiameter'], 'length'],
    ['lowerRail.from[1]', ['parts', 13, 'from', 1], 'length'],
    ['suspension.hardpoints.upperJoint[2]', ['suspension', 'hardpoints', 'upperJoint', 2], 'length'],
  ])('is found by its part and its name: %s', (name, path, kind) => {
    expect(variedField(source, name)).toEqual({ name, path, kind });
  });

  it.each([
    ['whel.offset', /"whel" is not a part of this corner. Did you mean "wheel"\? .*Parts: wheel, tyre, hub/],
    ['wheel', /"wheel" has no field: write the field after a dot/],
    ['wheel.ofset', /"wheel.ofset": "ofset" is not a dimension. Did you mean "offset"\?/],
    ['tyre.designation', /"tyre.designation": "designation" is not a dimension/],
    ['caliper.mount', /"caliper.mount" has several values; name one of them: .*caliper.mount.boltRadius/],
    ['lowerRail.from', /name one of them: lowerRail.from\[0\], lowerRail.from\[1\]/],
    ['parts[0].offset', /"parts" is not a part/],
    ['', /is not a part/],
  ])('is rejected with valid names if it does not exist: %s', (name, message) => {
    expect(() => variedField(source, name)).toThrow(message);
  });

  it("replaces a wheel's offset if the backspacing is varied", () => {
    const assumed = structuredClone(source);
    Object.assign(assumed.parts[0], { assumed: ['offset', 'width'] });
    const changed = withAmount(assumed, variedField(source, 'wheel.backspacing'), 140);
    expect(valueAt(changed, ['parts', 0])).toMatchObject({ backspacing: 140, assumed: ['width'] });
    expect(valueAt(changed, ['parts', 0, 'offset'])).toBeUndefined();
    expect(valueAt(assumed, ['parts', 0, 'offset'])).toBe(25);
  });
});

describe('a range', () => {
  it('includes both ends, in the unit of the file', () => {
    expect(labels('wheel.offset', { from: -5, to: 6, step: 5 })).toEqual(['−5 mm', '0 mm', '5 mm', '6 mm']);
    const inches = { from: 4.25 * 25.4, to: 4.625 * 25.4, step: 25.4 / 8 };
    expect(labels('wheel.offset', inches, 'in')).toEqual(['4 1/4 in', '4 3/8 in', '4 1/2 in', '4 5/8 in']);
    expect(labels('wheel.offset', { from: 100, to: 102, step: 1 }, 'in')).toEqual([
      '3.937 in',
      '3.976 in',
      '4.016 in',
    ]);
    expect(labels('caliper.clockingDeg', { from: 0, to: 1, step: 0.4 })).toEqual([
      '0°',
      '0.4°',
      '0.8°',
      '1°',
    ]);
    expect(labels('wheel.offset', { from: 0, to: 0.3, step: 0.1 })).toHaveLength(4);
  });

  it('has a border tolerance of 0.1 mm, 1/64 inch or 0.1 degree, and none between codes', () => {
    const range = { from: 1, to: 4, step: 1 };
    expect(axisOf('wheel.offset', range).finer?.by).toBe(0.1);
    expect(axisOf('wheel.offset', range, 'in').finer?.by).toBe(25.4 / 64);
    expect(axisOf('wheel.offset', { ...range, within: 0.02 }, 'in').finer?.by).toBe(0.02);
    expect(axisOf('caliper.clockingDeg', range).finer?.by).toBe(0.1);
    expect(axisOf('wheel.diameterCode', range).finer).toBeUndefined();
  });

  it.each([
    [{ from: 5, to: 4, step: 1 }, /end of the range must be greater/],
    [{ from: 4, to: 4, step: 1 }, /end of the range must be greater/],
    [{ from: 4, to: 5, step: 0 }, /step must be greater than 0/],
    [{ from: 4, to: 5, step: Number.NaN }, /step must be greater than 0/],
    [{ from: 0, to: 400, step: 1 }, /401 values; at most 400/],
  ])('is rejected if it is invalid: %o', (range, message) => {
    expect(() => axisOf('wheel.offset', range)).toThrow(message);
  });

  it('of a whole number has only whole numbers', () => {
    expect(() => axisOf('wheel.spokes', { from: 3, to: 5, step: 0.5 })).toThrow(/whole number/);
    const close = { from: 3, to: 5, step: 1, within: 0.1 };
    expect(() => axisOf('wheel.spokes', close)).toThrow(/border tolerance does not apply/);
    expect(labels('wheel.spokes', { from: 3, to: 5, step: 1 })).toEqual(['3', '4', '5']);
  });
});
