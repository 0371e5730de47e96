import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CROSSING_SLOT } from '../studies/measuringError/crossingSlot.ts';
import { box, boxCorner } from '../studies/vary/boxCorner.ts';
import { daylight, textFile } from './run.ts';

/** The clearance is 15 mm, and the ± of three values can take 0.5 + 1 / 2 + 0.25 = 1.25 mm of it: by hand. */
const parts = [
  { ...box('rising', 'upright', [], []), centre: [0, 640, '350 mm ±0.5'], size: [40, 40, '30 mm ±1'] },
  { ...box('fixed', 'chassis', [], []), centre: [0, 640, '450 mm ±0.25'], size: [90, 90, 20] },
];
const file = (targetMm: number, changes: Record<string, unknown> = {}) =>
  textFile(
    JSON.stringify(
      boxCorner(parts, { pairs: [{ between: ['rising', 'fixed'], target: targetMm }], ...changes }),
    ),
  );

describe('daylight measuring-error', () => {
  it('lists the three figures of a pair, its values and those to measure again', async () => {
    const { code, stdout, stderr } = await daylight(['measuring-error', file(14), '--unit', 'mm']);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(
      /^rising ↔ fixed +clear, within measuring error +15\.00 ± 0\.01 +0\.[89]\d +1\.2[5-7] +0\.7[56]$/m,
    );
    expect(stdout).toMatch(/^rising\.centre\[2\] +350\.00 mm +0\.50 mm +typed with it +0\.5[01] +larger$/m);
    expect(stdout).toMatch(/^fixed\.centre\[2\] +450\.00 mm +0\.25 mm +typed with it +0\.2[56] +smaller$/m);
    expect(stdout).toMatch(/has 1\.2[56] mm less clearance: ◣ tight\.$/m);
    expect(stdout).toMatch(/^fixed\.rollDeg +0°, assumed +mm per degree .* below the value, .* above it$/m);
    expect(stdout).toMatch(
      /^Measure these again: their ± makes \d+ % of the worst cases of 1 pair, added up\.$/m,
    );
  });

  it.each([
    ['is clear by more than the worst case', 5, [], 0],
    ['is within the measuring error', 14, [], 0],
    ['is within the measuring error, with --strict', 14, ['--strict'], 1],
    ['is clear by more than the worst case, with --strict', 5, ['--strict'], 0],
    ['is tight', 16, [], 1],
  ])('has its exit code if a pair %s', async (_, targetMm, options, expected) => {
    const { code } = await daylight(['measuring-error', file(targetMm), ...options]);
    expect(code).toBe(expected);
  });

  it('prints the same as JSON', async () => {
    const measuredTo = { length: '1/32 in', angle: '0.5°' };
    const { stdout } = await daylight(['measuring-error', file(14, { measuredTo }), '--json']);
    const { format, version, values, pairs, unknown, measuredTo: shown } = JSON.parse(stdout);
    expect([format, version, unknown]).toEqual(['daylight.measuringError', 1, []]);
    expect(shown).toEqual({ lengthMm: 0.79375, angleDeg: 0.5 });
    const inFile = (name: string) => values.find((value: { name: string }) => value.name === name);
    expect(inFile('rising.size[2]')).toMatchObject({ value: 30, plusMinus: 1, plusMinusFrom: 'typed' });
    expect(inFile('rising.size[0]')).toMatchObject({ plusMinus: 0.79375, plusMinusFrom: 'measuredTo' });
    expect(inFile('fixed.rollDeg')).toMatchObject({ assumed: true, plusMinus: null, plusMinusFrom: null });
    expect(pairs).toHaveLength(1);
    const [pair] = pairs;
    // 1.25 mm, half of the other thickness, and bump.
    expect(pair.linear.worstMm - pair.linear.slopeErrorMm).toBeGreaterThan(1.25 + 1.5 * 0.79375 - 0.01);
    expect(pair).toMatchObject({ withinMeasuringError: true, exactCount: 0, verified: { kind: 'measured' } });
    expect(pair.terms[0]).toMatchObject({ value: 'suspension.travel.bump', end: 1, measured: true });
    expect(pair.assumed.map(({ value }: { value: string }) => value)).toContain('fixed.rollDeg');
  });

  it('gives the reasons why a corner with every value at its adverse end cannot be built', async () => {
    const { stdout } = await daylight([
      'measuring-error',
      textFile(JSON.stringify(boxCorner(CROSSING_SLOT))),
    ]);
    expect(stdout).toMatch(
      /^Worst case: .* The corner with every value at its adverse end cannot be built:\n {2}parts\[1\]: the side from outline\[1\]/m,
    );
  });

  it('is in the report: of all pairs if it is asked for, else of the tightest', async () => {
    const out = mkdtempSync(join(tmpdir(), 'daylight-'));
    const { code } = await daylight(['report', file(14), '--measuring-error', '--unit', 'mm', '--out', out]);
    expect(code).toBe(0);
    const report = readFileSync(join(out, 'report.md'), 'utf8');
    expect(report).toContain('1 clear pair is within measuring error: see Measuring error.');
    expect(report).toMatch(/^\| 1 \| clear, within measuring error \| rising ↔ fixed \|/m);
    expect(report).toMatch(
      /^\| rising\.centre\\?\[2\\?\] \| 350\.00 mm \| 0\.50 mm \| 0\.5[01] \| larger \|$/m,
    );
    const without = await daylight(['report', file(14), '--out', out]);
    expect(without.code).toBe(0);
    const ofTightest = readFileSync(join(out, 'report.md'), 'utf8');
    expect(ofTightest).toContain(
      'Of 1 studied pair, 1 clear pair is within measuring error: see Measuring error.',
    );
    expect(ofTightest).toContain('## Measuring error of the studied pairs');
    expect(ofTightest).toMatch(/^What moves this clearance most/m);
    rmSync(out, { recursive: true });
  });

  it('says what to do if no value has a ±', async () => {
    const plain = boxCorner([
      box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
      box('fixed', 'chassis', [0, 640, 450], [90, 90, 20]),
    ]);
    const { code, stdout } = await daylight(['measuring-error', textFile(JSON.stringify(plain))]);
    expect(code).toBe(0);
    expect(stdout).toContain('No measured value of this file has a ±. Type it with a value');
  });

  it('rejects a ± that is not less than its value, and a pair that does not exist', async () => {
    const wrong = await daylight(['measuring-error', file(14, { measuredTo: { length: 20 } })]);
    expect(wrong.code).toBe(65);
    expect(wrong.stderr).toContain(
      'parts[1].size[2]: is 20 mm, and must be more than the ± of measuredTo, 20 mm',
    );
    const unknown = await daylight(['measuring-error', file(14), '--pair', 'rising:fixd']);
    expect(unknown.code).toBe(64);
    expect(unknown.stderr).toContain('--pair: "fixd" is not a part of this corner. Did you mean "fixed"?');
  });
});
