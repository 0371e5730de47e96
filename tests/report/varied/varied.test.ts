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
import { readDesign } from '../../design/readDesign.ts';
import { box, boxCorner, FEW_STEPS, parallelArms } from '../../studies/vary/boxCorner.ts';
import { damperOf, jointAt } from '../../sweep/limitCorner.ts';

const INCH = 25.4;

/** A stay and a sensor of 20 mm on the upright, with a target of 2 mm between them. In inches. */
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

it('gives the poses of each value with the rack travel of that value', async () => {
  const source = boxCorner([
    { ...box('horn', 'upright', [200, 660, 330], [20, 20, 20]) },
    { ...box('post', 'chassis', [200, 740, 330], [20, 20, 20]) },
  ]);
  const design = readDesign(source);
  const field = variedField(source, 'suspension.steering.rackOutboard');
  const axis = rangeAxis(field, { from: 10, to: 20, step: 10 }, 'mm');
  const study = await varyCorner(design, [axis], { settings: FEW_STEPS });
  const { cells } = JSON.parse(variedJson(design, FEW_STEPS, study, '0.0.0'));
  const racks = cells.map(({ pairs }: { pairs: { worst: { rackMm: number } }[] }) => pairs[0].worst.rackMm);
  expect(racks).toEqual([10, 20]);
});

describe('a study as text', () => {
  it('has a line for each value and both sides of each border', async () => {
    const design = readDesign(inches);
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
      'stay.centre[0]  Result     Pair, joint or damper          Clearance  Target  Left over',
    );
    expect(table[1]).toMatch(
      /^3\/4 in +✕ touches {2}Speed sensor ↔ Hose stay +−0.\d{3} ± 0.\d{3} +0.0787 +–$/,
    );
    expect(table[2]).toBe('                at every pose');
    expect(table[3]).toMatch(/^1 in +fits +Speed sensor ↔ Hose stay +0.212 ± 0.001 +0.0787 +0.133$/);
    // The stay clears from 22 mm on, 55.4 of 64ths of an inch, to 98 mm from the clip, 246.9 of them.
    expect(fitSentences(study, design.corner, figures)).toEqual([
      'stay.centre[0]: every value tried from 7/8 in to 3 27/32 in clears; below that, at 55/64 in, Speed sensor ↔ Hose stay is 0.007 in short of its target, at every pose; above that, at 3 55/64 in, Hose stay ↔ clip is 0.002 in short of its target, at every pose.',
    ]);
    expect(scopeSentences(study, design.corner)[0]).toBe(
      '2 of 3 pairs change with stay.centre[0] and are checked. The others have the same result at every value: see a sweep.',
    );
    expect(scopeSentences(study, design.corner).join(' ')).not.toMatch(/by proof|hub/);
  });

  it('reports that no value fits, and why a corner cannot be built', async () => {
    const design = readDesign(inches);
    const study = await varyCorner(design, [along(0, 0.5, 0.25)], { settings: FEW_STEPS });
    expect(fitSentences(study, design.corner, figures)).toEqual([
      'stay.centre[0]: none of the 3 values tried fits.',
      'Too close at every value: Speed sensor ↔ Hose stay.',
    ]);
    const thin = rangeAxis(variedField(inches, 'stay.size[0]'), { from: -2, to: 2, step: 2 }, 'mm');
    const unbuilt = await varyCorner(design, [thin], { settings: FEW_STEPS });
    const table = variedTable(unbuilt, design.corner, figures);
    expect(table).toMatch(
      /^−2 mm +not built\n +the corner cannot be built: parts\[1\].size\[0\] must be more/m,
    );
    expect(fitSentences(unbuilt, design.corner, figures)[0]).toMatch(
      /^stay.size\[0\]: every value tried from 0.1 mm to 2 mm clears; below that, at 0 mm, the corner cannot be built: /,
    );
  });

  it('is a grid for two dimensions, with a letter for each pair that fails', async () => {
    const design = readDesign(inches);
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

  it('is JSON for the side of the corner', async () => {
    const design = readDesign(inches);
    const study = await varyCorner(design, [along(0.75, 1, 0.25)], { settings: FEW_STEPS });
    const json = JSON.parse(variedJson(design, FEW_STEPS, study, '0.0.0'));
    expect(json).toMatchObject({
      format: 'daylight.varied',
      version: 2,
      side: 'right',
      designHash: design.hash,
      varied: [{ title: 'stay.centre[0]', values: 2 }],
      hubHeld: false,
      pairCount: 3,
      concernedCount: 2,
      limitCount: 0,
      concernedLimitCount: 0,
      unknownLimits: [],
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

describe('a joint or damper that binds, as text', () => {
  /** At full bump the arms and tie rod turn by 9.594 degrees, and the joint tilts by the same angle. */
  const uniball = (allowedTiltDeg: number) =>
    jointAt('lowerJoint', { id: 'uniball', label: 'Lower uniball', allowedTiltDeg });
  const [sensor, stay] = [
    box('sensor', 'upright', [0, 640, 400], [20, 20, 20]),
    box('stay', 'upright', [60, 640, 400], [20, 20, 20]),
  ];
  const mounts = { chassisMount: [0, 480, 640], armMount: [0, 480, 230], on: 'lowerArm' };
  const mm = figuresIn('mm');
  const studied = async (
    source: Record<string, unknown>,
    name: string,
    from: number,
    to: number,
    step: number,
  ) => {
    const design = readDesign(source);
    const axis = rangeAxis(variedField(source, name), { from, to, step }, 'mm');
    return { design, study: await varyCorner(design, [axis], { settings: FEW_STEPS }) };
  };
  const BINDS =
    'Lower uniball binds, −0.60° left, at bump +60.0 mm, rack 0.0 mm (front edge inboard), wheel angle 0.0°';

  it('is named with its remaining tilt and its pose, and with the border', async () => {
    const { design, study } = await studied(boxCorner([uniball(12)]), 'uniball.allowedTiltDeg', 9, 11, 1);
    const rows = variedRows(study.cells, design.corner, mm);
    expect(rows[0]).toMatchObject({ verdict: 'fails', result: '✕ binds', lines: [BINDS] });
    expect(rows[1]).toMatchObject({ verdict: 'fits', lines: ['Lower uniball, tilt: 0.40° left'] });
    const table = variedTable(study, design.corner, mm).split('\n');
    expect(table[1]).toMatch(/^9° +✕ binds {2}Lower uniball, tilt +−0\.60°$/);
    expect(table[2].trim()).toBe(
      '9.60°, 9.00° allowed, at bump +60.0 mm, rack 0.0 mm (front edge inboard), wheel angle 0.0°',
    );
    expect(table[3]).toMatch(/^10° +fits +Lower uniball, tilt +0\.40°$/);
    const [sentence] = fitSentences(study, design.corner, mm);
    expect(sentence).toMatch(
      / to 11° clears; below that, at 9\.5\d?°, Lower uniball binds, −0\.\d\d° left, at bump/,
    );
    expect(scopeSentences(study, design.corner)).toContain(
      'Joints and damper: 1 of 1 limit changes with uniball.allowedTiltDeg or binds at every value, and is checked over all travel and steering.',
    );
    const json = JSON.parse(variedJson(design, FEW_STEPS, study, '0.0.0'));
    expect(json.cells[0]).toMatchObject({ verdict: 'fails', pairs: [] });
    expect(json.cells[0].limits).toMatchObject([
      { part: 'uniball', kind: 'jointTilt', state: 'binds', allowed: 9, worst: { travelMm: 60, rackMm: 0 } },
    ]);
    expect(json.cells[0].limits[0].left).toBeCloseTo(-0.594, 3);
    expect(json).toMatchObject({ limitCount: 1, concernedLimitCount: 1 });
  });

  it('is reported as binding at every value if no value changes it', async () => {
    const { design, study } = await studied(
      boxCorner([uniball(9), sensor, stay]),
      'stay.centre[0]',
      20,
      60,
      40,
    );
    const rows = variedRows(study.cells, design.corner, mm);
    expect(rows.map(({ result, lines }) => [result, ...lines])).toEqual([
      ['✕ touches', 'sensor ↔ stay touches, at every pose', 'and Lower uniball binds'],
      ['✕ binds', BINDS],
    ]);
    expect(fitSentences(study, design.corner, mm)).toEqual([
      'stay.centre[0]: none of the 2 values tried fits.',
      'At every value: Lower uniball binds.',
    ]);
    const size = rangeAxis(variedField(design.source, 'stay.size[0]'), { from: 10, to: 20, step: 10 }, 'mm');
    const grid = variedGrid(
      await varyCorner(design, [study.axes[0], size], { settings: FEW_STEPS }),
      design.corner,
      mm,
    );
    expect(grid).toMatch(/^20 mm +✕ binds a +✕ touches b\n60 mm +✕ binds a +✕ binds a$/m);
    expect(grid).toMatch(/^a: at worst, with 20 mm, 10 mm: Lower uniball binds, −0\.60° left, at bump/m);
  });

  it('is reported once if it is unknown at every value, and at each value if a value changes it', async () => {
    const damper = damperOf({ label: 'Damper', bodyDiameter: 40, rodDiameter: 14 });
    const source = boxCorner([damper, sensor, stay], { suspension: { ...parallelArms, damper: mounts } });
    const same = await studied(source, 'stay.centre[0]', 60, 80, 20);
    expect(same.study.cells.map(({ tried }) => tried.verdict)).toEqual(['fits', 'fits']);
    expect(scopeSentences(same.study, same.design.corner)).toEqual(
      expect.arrayContaining([
        'Joints and damper: none of 2 limits changes with stay.centre[0] or binds.',
        'At every value: Whether Damper tops out is unknown: give its openLength.',
      ]),
    );
    const json = JSON.parse(variedJson(same.design, FEW_STEPS, same.study, '0.0.0'));
    expect(json.unknownLimits).toMatchObject([
      { part: 'damper', kind: 'damperOpen', state: 'unknown', left: null },
    ]);
    const moved = await studied(source, 'suspension.damper.chassisMount[2]', 640, 660, 20);
    const rows = variedRows(moved.study.cells, moved.design.corner, mm);
    expect(rows[1]).toMatchObject({
      verdict: 'unknown',
      result: '? unknown',
      lines: ['whether Damper tops out is unknown: give its openLength'],
    });
  });
});
