import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { box, boxCorner } from '../studies/vary/boxCorner.ts';
import { daylight, newFolder, textFile } from './run.ts';

const corner = () =>
  textFile(JSON.stringify(boxCorner([box('block', 'upright', [0, 600, 330], [40, 60, 80])], { unit: 'in' })));

describe('daylight drawings', () => {
  it('writes a sheet for each view and all of them as PDF', async () => {
    const out = join(newFolder(), 'new', 'folder');
    const { code, stdout, stderr } = await daylight(['drawings', corner(), '--out', out]);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toContain('Front view, 1:');
    for (const name of ['front', 'side', 'top', 'section']) {
      const svg = readFileSync(join(out, `${name}.svg`), 'utf8');
      expect(svg).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg" width="\d+mm"/);
      expect(stdout).toContain(`Written: ${join(out, `${name}.svg`)}`);
    }
    // 360 mm in the unit of the file.
    expect(readFileSync(join(out, 'front.svg'), 'utf8')).toContain('Lower arm 14.173<');
    expect(readFileSync(join(out, 'drawings.pdf'), 'latin1').slice(0, 5)).toBe('%PDF-');
  });

  it('takes paper and unit', async () => {
    const out = newFolder();
    const { code } = await daylight([
      'drawings',
      corner(),
      '--out',
      out,
      '--paper',
      'Letter',
      '--unit',
      'mm',
    ]);
    expect(code).toBe(0);
    const svg = readFileSync(join(out, 'top.svg'), 'utf8');
    expect(svg).toMatch(/viewBox="0 0 (279.4 215.9|215.9 279.4)"/);
    expect(svg).toContain('Tie rod 360<');
  });

  it('names the option, the value and the remedy', async () => {
    const out = newFolder();
    const wrong = await daylight(['drawings', corner(), '--out', out, '--paper', 'A5']);
    expect(wrong).toEqual({
      code: 64,
      stdout: '',
      stderr: 'daylight: --paper: "A5" is not allowed. Give A4 or Letter.\n',
    });
    const unit = await daylight(['drawings', corner(), '--out', out, '--unit', 'cm']);
    expect([unit.code, unit.stderr]).toEqual([64, 'daylight: --unit: "cm" is not allowed. Give mm or in.\n']);
    expect((await daylight(['drawings', corner()])).stderr).toBe('daylight: --out DIR is missing\n');
    expect(existsSync(join(out, 'front.svg'))).toBe(false);
  });

  it('reports a folder that cannot be written to', async () => {
    const file = join(newFolder(), 'file');
    writeFileSync(file, '');
    const { code, stderr } = await daylight(['drawings', corner(), '--out', join(file, 'out')]);
    expect(code).toBe(73);
    expect(stderr).toContain(
      `${join(file, 'out')}: cannot be written to: there is a file in place of the folder`,
    );
  });
});
