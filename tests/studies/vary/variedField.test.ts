import { describe, expect, it } from 'vitest';
import { valueAt } from '../../../src/design/path.ts';
import { rangeAxis } from '../../../src/studies/vary/rangeAxis.ts';
import { variedField, withAmount } from '../../../src/studies/vary/variedField.ts';
import { minimalCorner } from '../../design/fixtures.ts';

const source = minimalCorner();
const axisOf = (name: string, range: Parameters<typeof rangeAxis>[1], unit: 'mm' | 'in' = 'mm') =>
  rangeAxis(variedField(source, name), range, unit);
const labels = (...args: Parameters<typeof axisOf>) => axisOf(...args).values.map(({ label }) => label);

describe('a field that is varied', () => {
  it.each([
    ['wheel.offset', ['parts', 0, 'offset'], 'length'],
    ['wheel.diameterCode', ['parts', 0, 'diameterCode'], 'number'],
    ['wheel.spokes', ['parts', 0, 'spokes'], 'count'],
    ['caliper.clockingDeg', ['parts', 4, 'clockingDeg'], 'angle'],
    ['caliper.mount.boltRadius', ['parts', 4, 'mount', 'boltRadius'], 'length'],
    ['tyre.overallDiameter', ['parts', 1, 'overallDiameter'], 'length'],
    ['lowerRail.from[1]', ['parts', 13, 'from', 1], 'length'],
    ['suspension.hardpoints.upperJoint[2]', ['suspension', 'hardpoints', 'upperJoint', 2], 'length'],
  ])('is named by its part and its name: %s', (name, path, kind) => {
    expect(variedField(source, name)).toEqual({ name, path, kind });
  });

  it.each([
    ['whel.offset', /"whel" is no part of this corner. Did you mean "wheel"\? .*there are: wheel, tyre, hub/],
    ['wheel', /"wheel" names no field: write the field after a point/],
    ['wheel.ofset', /"ofset" of "wheel.ofset" is no dimension there. Did you mean "offset"\?/],
    ['tyre.designation', /"designation" of "tyre.designation" is no dimension there/],
    ['caliper.mount', /"caliper.mount" holds several values; name one of them: .*caliper.mount.boltRadius/],
    ['lowerRail.from', /name one of them: lowerRail.from\[0\], lowerRail.from\[1\]/],
    ['parts[0].offset', /"parts" is no part/],
    ['', /is no part/],
  ])('that is none is told with what would be right: %s', (name, message) => {
    expect(() => variedField(source, name)).toThrow(message);
  });

  it('of a wheel that is placed by its offset leaves that out when the backspacing is given', () => {
    const assumed = structuredClone(source);
    Object.assign(assumed.parts[0], { assumed: ['offset', 'width'] });
    const changed = withAmount(assumed, variedField(source, 'wheel.backspacing'), 140);
    expect(valueAt(changed, ['parts', 0])).toMatchObject({ backspacing: 140, assumed: ['width'] });
    expect(valueAt(changed, ['parts', 0, 'offset'])).toBeUndefined();
    expect(valueAt(assumed, ['parts', 0, 'offset'])).toBe(25);
  });
});

describe('a range', () => {
  it('has both its ends, in the unit of the file', () => {
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

  it('is closed in on by tenths of a mm, 64ths of an inch, tenths of a degree, and not between codes', () => {
    const range = { from: 1, to: 4, step: 1 };
    expect(axisOf('wheel.offset', range).finer?.by).toBe(0.1);
    expect(axisOf('wheel.offset', range, 'in').finer?.by).toBe(25.4 / 64);
    expect(axisOf('wheel.offset', { ...range, within: 0.02 }, 'in').finer?.by).toBe(0.02);
    expect(axisOf('caliper.clockingDeg', range).finer?.by).toBe(0.1);
    expect(axisOf('wheel.diameterCode', range).finer).toBeUndefined();
  });

  it.each([
    [{ from: 5, to: 4, step: 1 }, /end of the range must be more/],
    [{ from: 4, to: 4, step: 1 }, /end of the range must be more/],
    [{ from: 4, to: 5, step: 0 }, /step must be more than 0/],
    [{ from: 4, to: 5, step: Number.NaN }, /step must be more than 0/],
    [{ from: 0, to: 400, step: 1 }, /401 values; at most 400/],
  ])('that cannot be is refused: %o', (range, message) => {
    expect(() => axisOf('wheel.offset', range)).toThrow(message);
  });

  it('of a whole number is in whole numbers', () => {
    expect(() => axisOf('wheel.spokes', { from: 3, to: 5, step: 0.5 })).toThrow(/whole number/);
    const close = { from: 3, to: 5, step: 1, within: 0.1 };
    expect(() => axisOf('wheel.spokes', close)).toThrow(/no border lies between/);
    expect(labels('wheel.spokes', { from: 3, to: 5, step: 1 })).toEqual(['3', '4', '5']);
  });
});
