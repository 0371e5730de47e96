import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { minimalCorner, SMALL_CALIPER } from '../design/fixtures.ts';
import { cornerFile, daylight, newFolder, textFile } from './run.ts';

const STEPS = ['--travel-steps', '3', '--steer-steps', '3', '--chord', '0.4'];

/** The bench corner's parts at the wheel, with bolts, in a file that declares inches. */
function wheelFile(): string {
  const { pairs: _, ...corner } = minimalCorner();
  const parts = corner.parts.filter(({ kind }) =>
    ['wheel', 'hub', 'rotor', 'caliper', 'upright'].includes(kind),
  );
  for (const part of parts)
    if (part.kind === 'caliper') Object.assign(part, SMALL_CALIPER, { bleedScrew: undefined });
  const bolts = { id: 'hubBolts', label: 'Hub bolts', kind: 'bolts', joins: 'hubMount', size: 'M12' };
  return textFile(JSON.stringify({ ...corner, unit: 'in', parts: [...parts, bolts] }));
}

const inches = (): string => cornerFile({ unit: 'in' });
const HEIGHT = ['--field', 'battery.centre[2]', '--from', '34', '--to', '35', '--step', '1'];

describe('without --unit, figures are in the unit of the file', () => {
  it.each([
    ['check', inches, [], /^At ride height, straight ahead, in inches:$/m],
    ['sweep', inches, STEPS, /^Worst case of each pair, in inches:$/m],
    ['vary', inches, [...HEIGHT, ...STEPS], /in inches:\n(.*\n)*34 in +fits /],
    ['bolts', wheelFile, [], /^Hub bolts: .* \d\.\d\d in under the head/m],
    ['fit', wheelFile, ['--chord', '0.4'], /^Candidates, best first, lengths in inches:$/m],
    ['audit', wheelFile, STEPS, /enlarged by both chord errors, 0\.\d{3}( to 0\.\d{3})? in\./],
  ] as const)('of %s', async (command, file, args, figures) => {
    const { stdout, stderr } = await daylight([command, file(), ...args]);
    expect(stderr).toBe('');
    expect(stdout).toMatch(figures);
    // The origin of a target may name millimetres.
    expect(stdout.replace(/^ +target .*$/gm, '')).not.toMatch(/\d mm(?![³\w])/);
  });

  it('of report', async () => {
    const out = newFolder();
    const { stdout } = await daylight(['report', inches(), ...STEPS, '--out', out]);
    expect(stdout).toMatch(/Least margin: .* \d\.\d{3} in\b/);
    expect(readFileSync(join(out, 'report.md'), 'utf8')).toContain('Margin in inches,');
  });
});

it('with --unit, figures are in that unit', async () => {
  const { stdout } = await daylight(['check', inches(), '--unit', 'mm']);
  expect(stdout).toContain('At ride height, straight ahead, in mm:');
});
