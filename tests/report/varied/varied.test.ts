import { describe, expect, it } from 'vitest';
import { figuresIn } from '../../../src/report/figures.ts';
import { fitSentences, scopeSentences } from '../../../src/report/varied/fitSentences.ts';
import { variedGrid } from '../../../src/report/varied/variedGrid.ts';
import { variedJson } from '../../../src/report/varied/variedJson.ts';
import { variedRows } from '../../../src/report/varied/variedRows.ts';
import { variedTable } from '../../../src/report/varied/variedTable.ts';
import { rangeAxis } from '../../../src/studies/vary/rangeAxis.ts';
import { variedField } from '../../../src/studies/vary/variedField.ts';
import { varyCorner } from '../../../src/studies/vary/vary.ts';
import { box, boxCorner, designOf, FEW_STEPS } from '../../studies/vary/boxCorner.ts';

const INCH = 25.4;

/** A stay beside a sensor of 20 mm, both on the upright; 2 mm are wanted between them. In inches. */
const inches = boxCorner(
  [
    { ...box('sensor', 'upright', [0, 660, 330], [20, 20, 20]), label: 'Speed sensor' },
    { ...box('stay', 'upright', [60, 660, 330], [20, 20, 20]), label: 'Hose stay' },
    box('clip', 'upright', [120, 660, 330], [20, 20, 20]),
  ],
  { unit: 'in', side: 'right' },
);
const along = (from: number, to: number, step: number) =>
  rangeAxis(
    variedField(inches, 'stay.centre[0]'),
    { from: from * INCH, to: to * INCH, step: step * INCH },
    'in',
  );
const figures = figuresIn('in');

describe('a study in words', () => {
  it('has a line for each value and a bracket for each border', async () => {
    const design = designOf(inches);
    const study = await varyCorner(design, [along(0.75, 4, 0.25)], { settings: FEW_STEPS });
    const rows = variedRows(study.cells, design.corner, figures);
    expect(rows.map(({ value }) => value)).toEqual(study.cells.map(({ values }) => values[0].label));
    expect(rows[0]).toMatchObject({ value: '3/4 in', verdict: 'fails', result: '✕ touches' });
    expect(rows[0].lines[0]).toBe('Speed sensor ↔ Hose stay touches, at every pose');
    const fitting = rows.find(({ verdict }) => verdict === 'fits');
    expect(fitting?.lines).toEqual([
      expect.stringMatching(/^.* ↔ .* has \d\.\d{3} in more than its target$/),
    ]);
    const table = variedTable(study, design.corner, figures).split('\n');
    expect(table[0]).toBe(
      'stay.centre[0]  Result     Pair                           Clearance  Target  Left over',
    );
    expect(table[1]).toMatch(
      /^3\/4 in +✕ touches {2}Speed sensor ↔ Hose stay +−0.\d{3} ± 0.\d{3} +0.0787 +–$/,
    );
    expect(table[2]).toBe('                at every pose');
    expect(table[3]).toMatch(/^1 in +fits +Speed sensor ↔ Hose stay +0.212 ± 0.001 +0.0787 +0.133$/);
    // The stay clears from 22 mm on, 55.4 of 64ths of an inch, to 98 mm from the clip, 246.9 of them.
    expect(fitSentences(study, design.corner, figures)).toEqual([
      'stay.centre[0] 7/8 in to 3 27/32 in clears; below it, tried at 55/64 in, Speed sensor ↔ Hose stay is 0.007 in short of its target, at every pose; above it, tried at 3 55/64 in, Hose stay ↔ clip is 0.002 in short of its target, at every pose.',
    ]);
    expect(scopeSentences(study)[0]).toBe(
      '2 of 3 pairs change with stay.centre[0] and are judged; the others have the same answer whatever it is, and are left to a sweep.',
    );
    expect(scopeSentences(study).join(' ')).not.toMatch(/by proof|hub/);
  });

  it('says that nothing fits, and why a corner cannot be built', async () => {
    const design = designOf(inches);
    const study = await varyCorner(design, [along(0, 0.5, 0.25)], { settings: FEW_STEPS });
    expect(fitSentences(study, design.corner, figures)).toEqual([
      'stay.centre[0]: none of the 3 values tried fits.',
      'Whatever it is, too near stay: Speed sensor ↔ Hose stay.',
    ]);
    const thin = rangeAxis(variedField(inches, 'stay.size[0]'), { from: -2, to: 2, step: 2 }, 'mm');
    const unbuilt = await varyCorner(design, [thin], { settings: FEW_STEPS });
    const table = variedTable(unbuilt, design.corner, figures);
    expect(table).toMatch(
      /^−2 mm +not built\n +the corner cannot be built: parts\[1\].size\[0\] must be more/m,
    );
    expect(fitSentences(unbuilt, design.corner, figures)[0]).toMatch(
      /^stay.size\[0\] 0.1 mm to 2 mm clears; below it, tried at 0 mm, the corner cannot be built: /,
    );
  });

  it('of two dimensions is a grid with a letter for each pair that fails', async () => {
    const design = designOf(inches);
    const sizes = rangeAxis(variedField(inches, 'stay.size[0]'), { from: 20, to: 66, step: 46 }, 'mm');
    const study = await varyCorner(design, [along(1, 4, 1), sizes], { settings: FEW_STEPS });
    const lines = variedGrid(study, design.corner, figures).split('\n');
    expect(lines.slice(0, 6)).toEqual([
      'stay.centre[0] down, stay.size[0] across:',
      '      20 mm        66 mm',
      '1 in  fits         ✕ touches a',
      '2 in  fits         fits',
      '3 in  fits         ◣ tight b',
      '4 in  ✕ touches b  ✕ touches b',
    ]);
    expect(lines[6]).toBe('a: Speed sensor ↔ Hose stay touches, at every pose');
    expect(lines[7]).toBe('b: at worst, with 4 in, 66 mm: Hose stay ↔ clip touches, at every pose');
  });

  it('is JSON of the side the corner is on', async () => {
    const design = designOf(inches);
    const study = await varyCorner(design, [along(0.75, 1, 0.25)], { settings: FEW_STEPS });
    const json = JSON.parse(variedJson(design, FEW_STEPS, study, '0.0.0'));
    expect(json).toMatchObject({
      format: 'daylight.varied',
      version: 1,
      side: 'right',
      designHash: design.hash,
      varied: [{ title: 'stay.centre[0]', values: 2 }],
      hubHeld: false,
      pairCount: 3,
      concernedCount: 2,
    });
    expect(json.cells[0]).toMatchObject({ values: [{ label: '3/4 in', amount: 19.05 }], verdict: 'fails' });
    expect(json.cells[0].pairs[0]).toMatchObject({
      a: 'sensor',
      b: 'stay',
      state: 'touches',
      leastMarginMm: null,
    });
    expect(json.cells[1].pairs[0].worst.pointA[1]).toBeLessThan(0);
    expect(json.cells[1].pairs[0].leastMarginMm).toBeCloseTo(25.4 - 22, 4);
    expect(json.fits[0].first).toEqual({ label: '7/8 in', amount: 22.225 });
    expect(json.fits[0].failsBelow.values[0].label).toBe('55/64 in');
    expect(json.fits[0].failsAbove).toBeNull();
  });
});
