import { describe, expect, it } from 'vitest';
import { figuresIn } from '../../src/report/figures.ts';
import { findingsJson } from '../../src/report/findingsJson.ts';
import { reportHtml } from '../../src/report/html.ts';
import { limitRows } from '../../src/report/limitRows.ts';
import { limitTable } from '../../src/report/limitTable.ts';
import { reportMarkdown } from '../../src/report/markdown.ts';
import { resultsJson } from '../../src/report/resultsJson.ts';
import { mapCells } from '../../src/report/sweepMap.ts';
import { verdictSentence } from '../../src/report/verdict.ts';
import type { MeasuredLimit } from '../../src/sweep/limit.ts';
import { inventedLimit } from '../oracles/inventedLimit.ts';
import { proofOf } from '../oracles/inventedProof.ts';
import { cornerSource } from './cornerSource.ts';
import { type FixtureOptions, reportInput } from './fixture.ts';

const at = (used: number) => ({ travelMm: -50, steer: 1, roadWheelAngleDeg: 20, used });
/** Tilt at 25 steps; only the step at full droop and full lock binds. */
const STEPS = Float64Array.from({ length: 25 }, (_, step) => (step === 4 ? 25.001 : 5));

const LIMITS: MeasuredLimit[] = [
  inventedLimit({ partIndex: 0, label: 'Lower joint', usedAtSteps: new Float64Array(25) }),
  inventedLimit({
    partIndex: 1,
    worst: at(25.001),
    proven: 25.0051,
    usedAtSteps: STEPS,
    betterHousing: { direction: [-0.0165, -0.0427, 0.999], mostTiltDeg: 23.5512 },
  }),
  inventedLimit({
    kind: 'damperClosed',
    partIndex: 2,
    label: 'Damper',
    unit: 'mm',
    allowed: 286,
    allowedFrom: {
      how: 'computed',
      field: 'closedLength',
      dimensions: [
        { name: 'body', mm: 270 },
        { name: 'half the eye', mm: 16 },
      ],
    },
    worst: at(284.5),
    proven: 284.495,
    usedAtSteps: new Float64Array(25).fill(300),
  }),
  inventedLimit({
    kind: 'damperOpen',
    partIndex: 2,
    label: 'Damper',
    unit: 'mm',
    allowed: undefined,
    allowedFrom: { how: 'missing', field: 'openLength', dimensions: [] },
    worst: at(400),
    proven: 400.005,
    usedAtSteps: new Float64Array(25).fill(399),
  }),
];

const clear = { lowerMm: 19, foundMm: 20 };
const OPTIONS: FixtureOptions = { limits: LIMITS, proof: () => proofOf([clear, clear, clear, clear]) };

describe('joints and damper as text', () => {
  const input = reportInput(OPTIONS);

  it('round used and proven values toward the allowed one, and the rest down', () => {
    const [tilt, closed, open, lower] = limitRows(input, figuresIn('mm'));
    expect(tilt).toMatchObject({
      name: 'Upper joint, tilt',
      used: '25.01°',
      proven: '25.01°',
      allowed: '24.00°',
      left: '−1.01°',
      travel: '−50.0',
      steer: '+40.0',
      wheelAngle: '+20.0°',
      from: 'ball 28.6, housing width 18, bolt 14 mm',
    });
    expect(closed).toMatchObject({
      used: '284.50 mm',
      proven: '284.49 mm',
      allowed: '286.00 mm',
      left: '−1.50 mm',
    });
    expect(closed.from).toBe('derived, a lower bound: body 270, half the eye 16 mm; give closedLength');
    expect(open).toMatchObject({
      used: '400.00 mm',
      proven: '400.01 mm',
      allowed: 'unknown',
      left: '',
      from: 'unknown: give openLength',
    });
    expect(lower).toMatchObject({ left: '2.00°', advice: '' });
  });

  it('give a better direction of the housing, and whether it is enough', () => {
    const adviceWith = (given: Partial<MeasuredLimit>) =>
      limitRows(reportInput({ ...OPTIONS, limits: [{ ...LIMITS[1], ...given }] }), figuresIn('mm'))[0].advice;
    expect(adviceWith({})).toBe(
      'With housingDirection [-0.0165, -0.0427, 0.999] it tilts at most 23.56°, which is allowed.',
    );
    expect(adviceWith({ allowed: 20 })).toMatch(/still more than allowed\.$/);
    const none = { direction: [0, 0, 1] as const, mostTiltDeg: 25 };
    expect(adviceWith({ betterHousing: none })).toBe('No other direction of the housing gives less tilt.');
  });

  it('are in a table for a terminal, with the reason below each one that is not clear', () => {
    const lines = limitTable(input, figuresIn('mm'));
    expect(lines[0]).toBe('Joints and damper:');
    expect(lines[1]).toMatch(
      /^State +Joint or damper +Used +Proven +Allowed +Left +Travel +Rack +Wheel angle$/,
    );
    expect(lines[2]).toMatch(
      /^✕ binds +Upper joint, tilt +25\.01° +25\.01° +24\.00° +−1\.01° +−50\.0 +\+40\.0/,
    );
    expect(lines.filter((line) => line.includes('give openLength'))).toHaveLength(1);
    expect(limitTable(reportInput(), figuresIn('mm'))).toEqual([]);
  });

  it('are in the verdict if one binds, bottoms out or is unknown', () => {
    expect(input.findings.verdict).toBe('touches');
    expect(verdictSentence(input, figuresIn('mm'))).toContain(
      '1 joint binds: Upper joint. Damper bottoms out. Whether Damper tops out is unknown: give its openLength.',
    );
    expect(verdictSentence(reportInput({ limits: [LIMITS[0]] }), figuresIn('mm'))).not.toMatch(/bind|tops/);
  });

  it('have a section of the report, the same in HTML and Markdown', () => {
    const [html, markdown] = [reportHtml(input), reportMarkdown(input)];
    for (const text of [html, markdown]) {
      expect(text).toContain('Joints and damper');
      expect(text).toContain('25.01°');
      expect(text).toContain('0.999');
    }
    expect(html).toContain('<tr class="binds">');
    expect(html).toContain('joint or damper binds');
    expect(reportMarkdown(reportInput())).not.toContain('Joints and damper');
  });

  it('hatch the steps at which they bind on the map; contact outweighs them', () => {
    expect(mapCells(input.result, input.findings)[4]).toEqual({ kind: 'binds' });
    expect(mapCells(input.result, input.findings)[3].kind).toBe('margin');
    const touching = reportInput({ ...OPTIONS, measure: () => ({ mm: -1, errorMm: 0.1 }) });
    expect(mapCells(touching.result, touching.findings)[4]).toEqual({ kind: 'touches' });
  });
});

describe.each(['left', 'right'] as const)('joints and damper of a %s corner as JSON', (side) => {
  const input = reportInput({ ...OPTIONS, source: cornerSource({ side }) });

  it('contain used, allowed and left, and the worst pose', () => {
    const read = JSON.parse(findingsJson(input, '1.2.3'));
    expect(read).toMatchObject({ verdict: 'touches', limitCounts: { binds: 2, unknown: 1, clear: 1 } });
    expect(read.limits[0]).toEqual({
      part: 'upperArm',
      label: 'Upper joint',
      kind: 'jointTilt',
      state: 'binds',
      unit: 'deg',
      used: 25.001,
      errorBound: 0.0041,
      proven: 25.0051,
      allowed: 24,
      allowedFrom: expect.stringMatching(/^ball 28\.6, housing width/),
      left: -1.001,
      worst: {
        atStep: true,
        travelMm: -50,
        rackMm: side === 'left' ? 40 : -40,
        roadWheelAngleDeg: side === 'left' ? 20 : -20,
      },
      betterHousing: { housingDirection: [-0.0165, -0.0427, 0.999], mostTiltDeg: 23.5512 },
    });
    expect(read.limits[2]).toMatchObject({ kind: 'damperOpen', allowed: null, left: null });
  });

  it('contain the used value at every step', () => {
    const { limits } = JSON.parse(resultsJson(input, '1.2.3'));
    expect(limits[0]).toEqual({
      part: 'upperArm',
      kind: 'jointTilt',
      unit: 'deg',
      allowed: 24,
      used: [...STEPS],
    });
  });
});
