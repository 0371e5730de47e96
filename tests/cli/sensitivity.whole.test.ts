import { describe, expect, it } from 'vitest';
import { box, boxCorner } from '../studies/vary/boxCorner.ts';
import { daylight, textFile } from './run.ts';

const parts = [
  box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
  box('fixed', 'chassis', [0, 640, 450], [90, 90, 20]),
];
const file = (unit?: 'in') => textFile(JSON.stringify(boxCorner(parts, unit === undefined ? {} : { unit })));

/** The upright rises without turning: each slope is by hand. */
describe('daylight sensitivity', () => {
  it('lists the values that change a clearance, the largest slope first', async () => {
    const { code, stdout, stderr } = await daylight(['sensitivity', file(), '--unit', 'mm']);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^rising ↔ fixed: clear, 15\.00 ± 0\.01 mm at bump \+60\.0 mm/m);
    expect(stdout).toMatch(/^suspension\.travel\.bump +60\.00 mm +mm per mm +−1\.00 ± 0\.0\d$/m);
    expect(stdout).toMatch(/^rising\.size\[2\] +30\.00 mm +mm per mm +−0\.50 ± 0\.0\d$/m);
    expect(stdout.indexOf('rising.centre[2]')).toBeLessThan(stdout.indexOf('rising.size[2]'));
    expect(stdout).not.toMatch(/^suspension\.travel\.droop/m);
    expect(stdout).toContain('Sweep the changed corner before you cut.');
  });

  it('has the same slopes per length in inches, and those per degree in inches', async () => {
    const { stdout } = await daylight(['sensitivity', file('in'), '--pair', 'fixed:rising']);
    expect(stdout).toMatch(/^fixed\.centre\[2\] +17\.717 in +in per in +\+1\.00 ± 0\.0\d$/m);
    expect(stdout).toMatch(/^fixed\.rollDeg +0°, assumed +in per degree .* below the value, .* above it$/m);
  });

  it('prints the same as JSON', async () => {
    const { stdout } = await daylight(['sensitivity', file(), '--json']);
    const { format, version, values, pairs, unknown } = JSON.parse(stdout);
    expect([format, version, unknown]).toEqual(['daylight.sensitivity', 1, []]);
    expect(values).toContainEqual({
      name: 'fixed.centre[2]',
      quantity: 'length',
      value: 450,
      plusMinusMm: null,
      assumed: false,
      problems: [],
    });
    expect(pairs).toHaveLength(1);
    const { both } = pairs[0].effects.find(({ value }: { value: string }) => value === 'fixed.centre[2]');
    expect(Math.abs(both.perUnit - 1)).toBeLessThanOrEqual(both.error);
    expect(pairs[0].worst).toMatchObject({ travelMm: 60, clearanceMm: 15 });
  });

  it.each([
    [['--pair', 'rising'], /--pair: "rising" is not allowed\. Give the ids of two parts/],
    [['--pair', 'rising:fixd'], /--pair: "fixd" is not a part of this corner\. Did you mean "fixed"\?/],
    [['--pair', 'rising:rising'], /--pair: rising and rising are not measured against each other/],
  ])('%j ends with 64', async (args, message) => {
    const { code, stdout, stderr } = await daylight(['sensitivity', file(), ...args]);
    expect([code, stdout]).toEqual([64, '']);
    expect(stderr).toMatch(message);
  });
});
