import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { EXIT } from '../../src/cli/exit.ts';
import { readTyped } from '../../src/cli/options.ts';
import { vary } from '../../src/cli/vary.ts';
import { axesTyped } from '../../src/cli/varyAxes.ts';
import { minimalCorner } from '../design/fixtures.ts';
import { readDesign } from '../design/readDesign.ts';
import { cornerSource } from '../report/cornerSource.ts';
import { newFolder } from './run.ts';

/** The axes of a command line. */
const axes = (source: unknown, args: string[], unit: 'mm' | 'in' = 'mm') =>
  axesTyped(readTyped('vary', args, vary.options), readDesign(source), unit);

/** `--field` and the other options of its range, in that order, without those left out. */
const range = (field: string, from?: string, to?: string, step?: string): string[] =>
  Object.entries({ field, from, to, step }).flatMap(([name, value]) =>
    value === undefined ? [] : [`--${name}=${value}`],
  );

describe('the axes of vary', () => {
  it('are read in the unit of the file, with --within for the border', async () => {
    const inches = { ...minimalCorner(), unit: 'in' };
    const [axis] = await axes(
      inches,
      [...range('wheel.offset', '1/4', '3/4 in', '6.35 mm'), '--within', '0.01'],
      'in',
    );
    expect(axis.values.map(({ amount }) => amount)).toEqual([6.35, 12.7, 19.05]);
    expect(axis.finer?.by).toBeCloseTo(0.254, 9);
  });

  it('may be two fields, in the order of the options', async () => {
    const second = ['--and=caliper.clockingDeg', '--and-from=−10', '--and-to=10°', '--and-step=10'];
    const both = await axes(minimalCorner(), [...range('wheel.diameterCode', '16', '18', '1'), ...second]);
    expect(both.map(({ title, values }) => [title, ...values.map(({ label }) => label)])).toEqual([
      ['wheel.diameterCode', '16', '17', '18'],
      ['caliper.clockingDeg', '−10°', '0°', '10°'],
    ]);
  });

  const B = 'battery.allowance';
  it.each([
    [[], /no field or list is given: give --field PART\.FIELD with --from, --to and --step/],
    [['--from', '1 mm'], /--from needs --field, which is missing/],
    [['--and-step', '1 mm'], /--and-step needs --and, which is missing/],
    [
      range('batery.allowance', '1 mm', '2 mm', '1 mm'),
      /--field: "batery" is not a part of this corner\. Did you mean "battery"/,
    ],
    [range('battery.label', '1 mm', '2 mm', '1 mm'), /--field: "battery\.label": "label" is not a dimension/],
    [range(B, '1 mm', '2 mm'), /--step is missing: --field battery\.allowance needs it/],
    [range(B, '3', '4 mm', '1 mm'), /--from: "3" is not a length: it has no unit/],
    [range(B, '3 mm ±1', '4 mm', '1 mm'), /--from: "3 mm ±1" has a tolerance; write the length without it/],
    [
      range(B, '4 mm', '3 mm', '1 mm'),
      /--to: "3 mm" is not allowed\. Give a value greater than --from \(4 mm\)\./,
    ],
    [range(B, '3 mm', '4 mm', '0 mm'), /--step: "0 mm" is not allowed\. Give a step greater than 0\./],
    [range(B, '300 mm', '360 mm', '0.1 mm'), /--field: the range has 601 values; at most 400/],
    [range('battery.rollDeg', '1 mm', '2', '1'), /--from: "1 mm" is not a number of degrees/],
    [
      [...range(B, '3 mm', '4 mm', '1 mm'), '--within=0 mm'],
      /--within: "0 mm" is not allowed\. Give a length or angle greater than 0\./,
    ],
    [['--within', '1 mm'], /--within needs a range: give --field as well/],
    [
      [
        ...range(B, '3 mm', '4 mm', '1 mm'),
        ...['--and=battery.rollDeg', '--and-from=1', '--and-to=2', '--and-step=1', '--within=0.1 mm'],
      ],
      /--within: borders are found only if one field varies/,
    ],
  ])('rejects %j and names what is allowed', async (args, message) => {
    await expect(axes(cornerSource(), args)).rejects.toMatchObject({
      code: EXIT.usage,
      message: expect.stringMatching(message),
    });
  });

  it('may be a list, which is an error if it cannot be read or used', async () => {
    const list = join(newFolder(), 'list.txt');
    writeFileSync(list, '245/65R17\n37x12.5R17LT\n');
    const [axis] = await axes(minimalCorner(), ['--tyres', list]);
    expect(axis.values.map(({ label }) => label)).toEqual(['245/65R17', '37x12.5R17LT']);
    await expect(axes(minimalCorner(), ['--wheels', list])).rejects.toMatchObject({
      code: EXIT.badInput,
      message: expect.stringContaining(
        `--wheels: ${list}: line 1, "245/65R17": must have 3 dimensions, not 1`,
      ),
    });
    await expect(axes(cornerSource(), ['--tyres', list])).rejects.toMatchObject({
      code: EXIT.badInput,
      message: expect.stringContaining('the corner has no tyre'),
    });
    await expect(axes(minimalCorner(), ['--tyres', '/no/list.txt'])).rejects.toMatchObject({
      code: EXIT.noInput,
      message: '--tyres: /no/list.txt: cannot be opened: there is no such file or folder',
    });
  });
});
