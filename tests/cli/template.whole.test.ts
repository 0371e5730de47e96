import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { minimalCorner } from '../design/fixtures.ts';
import { readDxf } from '../report/templates/readDxf.ts';
import { daylight, newFolder, textFile } from './run.ts';

const DEMO = resolve(import.meta.dirname, '../../demo-data/stoneyholt.corner.json');
const HOSTILE = 'Link </svg><script>x</script> %%c ^J \\P & "quoted"';

function bench(label?: string): string {
  const source = minimalCorner();
  for (const part of source.parts) if (part.kind === 'upright' && label !== undefined) part.label = label;
  return textFile(JSON.stringify(source));
}

describe('daylight template', () => {
  it('writes the files of every plate, and says which', async () => {
    const out = join(newFolder(), 'made');
    const { code, stdout, stderr } = await daylight(['template', DEMO, '--out', out, '--process', 'plasma']);
    expect([code, stderr]).toEqual([0, '']);
    const names = readdirSync(out);
    expect(stdout.trim().split('\n').toSorted()).toEqual(
      names.map((name) => `Written: ${join(out, name)}`).toSorted(),
    );
    for (const name of ['upright.pad', 'upright.steeringArm', 'caliper.bracket', 'upright.lowerLeg.back'])
      expect(names).toEqual(
        expect.arrayContaining([`${name}.dxf`, `${name}.r12.dxf`, `${name}.svg`, `${name}.pdf`]),
      );
    // A clearance hole of 13.5 mm in 10 mm plate: 1.5 thicknesses are 15 mm.
    const { texts } = readDxf(readFileSync(join(out, 'caliper.bracket.dxf'), 'utf8'));
    expect(texts.join(' ')).toContain('Warning: Hole 1: 13.50 mm across is too small for plasma');
  });

  it('writes the same bytes again', async () => {
    const [one, two] = [newFolder(), newFolder()];
    const file = bench(HOSTILE);
    for (const out of [one, two]) expect((await daylight(['template', file, '--out', out])).code).toBe(0);
    // The PDF files differ in their dates.
    for (const name of readdirSync(one).filter((file) => !file.endsWith('.pdf')))
      expect(readFileSync(join(one, name)).equals(readFileSync(join(two, name))), name).toBe(true);
  });

  it('gives sizes in the unit of the file, or in the unit that is typed', async () => {
    const out = newFolder();
    await daylight(['template', bench(), '--out', out, '--unit', 'in']);
    const { texts } = readDxf(readFileSync(join(out, 'upright.pad.dxf'), 'utf8'));
    expect(texts.join(' ')).toMatch(/Thickness 0\.4724 in/);
  });

  it('changes the flat length with the bend radius that is typed', async () => {
    const areaOf = async (...more: string[]) => {
      const out = newFolder();
      await daylight(['template', bench(), '--out', out, ...more]);
      return readDxf(readFileSync(join(out, 'upright.pad.dxf'), 'utf8')).areasOn('CUT')[0];
    };
    expect(await areaOf()).toBeGreaterThan((await areaOf('--bend-radius', '12')) + 10);
  });

  it.each([
    [['--process', 'torch'], 64, '--process: "torch" is not allowed. Give plasma or laser.'],
    [['--paper', 'A5'], 64, '--paper: "A5" is not allowed. Give A4 or Letter.'],
    [['--kerf', '0'], 64, '--kerf: "0" is not allowed. Give a length from 0.01 to 10 mm.'],
    [['--bend-radius', '-1'], 64, '--bend-radius: "-1" is not allowed. Give a length from 0 to 100 mm.'],
    [['--k-factor', '0.4'], 64, '--k-factor needs --bend-radius'],
    [
      ['--bend-radius', '3', '--k-factor', '1'],
      64,
      '--k-factor: "1" is not allowed. Give a number from 0 to 0.5.',
    ],
  ] as const)('rejects %j', async (options, code, words) => {
    const ran = await daylight(['template', DEMO, '--out', newFolder(), ...options]);
    expect([ran.code, ran.stdout]).toEqual([code, '']);
    expect(ran.stderr).toContain(words);
  });

  it('names the file and the remedy if there is no plate, and the folder if it cannot be written to', async () => {
    const source = minimalCorner();
    source.parts = source.parts.filter(({ kind }) => kind === 'wheel' || kind === 'tyre');
    source.pairs = [];
    const none = textFile(JSON.stringify(source));
    const empty = await daylight(['template', none, '--out', newFolder()]);
    expect(empty.code).toBe(65);
    expect(empty.stderr).toContain(`${none}: parts: there is no flat plate. Add a part of kind "upright"`);
    const blocked = await daylight(['template', DEMO, '--out', DEMO]);
    expect(blocked.code).toBe(73);
    expect(blocked.stderr).toContain(`${DEMO}: cannot be written to: there is a file in place of the folder`);
    expect((await daylight(['template', DEMO])).stderr).toContain('--out DIR is missing');
  });
});
