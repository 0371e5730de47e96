import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { box, boxCorner } from '../studies/vary/boxCorner.ts';
import { daylight, newFolder, textFile } from './run.ts';

/** The block rises without turning: the gap is 75 mm less the travel. */
const parts = [
  { ...box('rising', 'upright', [], [40, 40, 30]), centre: [0, 640, '350 mm ±1 mm'] },
  box('fixed', 'chassis', [0, 640, 450], [90, 90, 20]),
];
const AGREES = {
  between: ['fixed', 'rising'],
  travel: 40,
  gap: '34.5 mm ±0.5 mm',
  on: '2026-03-01',
  by: 'E. Moss',
};
const DIFFERS = { between: ['rising', 'fixed'], travel: '-20', gap: '98 mm ±0.5 mm', note: 'On the stand.' };
const file = (...mockup: object[]) => textFile(JSON.stringify(boxCorner(parts, { unit: 'mm', mockup })));

describe('daylight mockup', () => {
  it('ends with 0 if every gap agrees', async () => {
    const { code, stdout, stderr } = await daylight(['mockup', file(AGREES)]);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(
      /^agrees +rising ↔ fixed +35\.00 ± 0\.01 +34\.50 ± 0\.50 +−0\.50 ± 0\.51 +± 1\.00$/m,
    );
    expect(stdout).toContain('2026-03-01, E. Moss');
    expect(stdout).toContain(
      '1 measured gap: 1 agrees with the computed gap within mesh error and measuring error.',
    );
  });

  it('ends with 1 if a gap differs, and names what to measure again', async () => {
    const { code, stdout } = await daylight(['mockup', file(AGREES, DIFFERS)]);
    expect(code).toBe(1);
    expect(stdout).toMatch(/^✕ differs +rising ↔ fixed +95\.00 ± 0\.01 +98\.00 ± 0\.50 +\+3\.00/m);
    expect(stdout).toContain('  at droop −20.0 mm, straight ahead');
    expect(stdout).toContain('  On the stand.');
    expect(stdout).toContain('2 measured gaps: 1 agrees');
    // Two gaps of one value: least squares by hand, (d0 s0 + d1 s1) / r² / (1 / 1² + 2 / r²) with slopes -1.
    expect(stdout).toMatch(/^rising\.centre\[2\] +350\.00 mm +−1\.11 mm +\+1\.11$/m);
    expect(stdout).toMatch(
      /values without a ± that would explain it, each alone: mockup\[1\]\.travel −3\.00 mm; fixed\.centre\[2\] \+3\.00 mm/,
    );
  });

  it('prints the same as JSON', async () => {
    const { code, stdout } = await daylight(['mockup', file(AGREES, DIFFERS), '--json']);
    const { format, version, gaps, suspects } = JSON.parse(stdout);
    expect([code, format, version]).toEqual([1, 'daylight.mockup', 1]);
    expect(gaps[1]).toMatchObject({
      a: 'rising',
      b: 'fixed',
      travelMm: -20,
      rackMm: 0,
      predicted: { mm: 95 },
      measured: { mm: 98, errorMm: 0.5 },
      differenceMm: 3,
      isExplained: false,
      on: null,
      by: null,
      note: 'On the stand.',
    });
    expect(suspects).toEqual([
      {
        value: 'rising.centre[2]',
        quantity: 'length',
        change: expect.closeTo(-1.11, 2),
        effectMm: expect.anything(),
      },
    ]);
  });

  it('ends with 65 without gaps, and with a pair that is not measured', async () => {
    const without = await daylight(['mockup', file()]);
    expect([without.code, without.stdout]).toEqual([65, '']);
    expect(without.stderr).toMatch(/mockup: the file has no measured gaps/);
    const joined = await daylight(['mockup', file({ ...AGREES, between: ['fixed', 'fixed'] })]);
    expect(joined.code).toBe(65);
    expect(joined.stderr).toMatch(/mockup\[0\]\.between: .*names the same part twice/);
  });

  it('is in the report', async () => {
    const folder = newFolder();
    const { stderr } = await daylight(['report', file(AGREES, DIFFERS), '--out', folder]);
    expect(stderr).toBe('');
    const report = readFileSync(join(folder, 'report.md'), 'utf8');
    expect(report).toContain('## Mock-up');
    expect(report).toMatch(
      /\| ✕ differs \| rising ↔ fixed \| droop −20\.0 mm, .* \| 95\.00 ± 0\.01 \| 98\.00 ± 0\.50 \|/,
    );
  });
});
