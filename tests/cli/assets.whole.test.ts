import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { cornerText } from '../report/cornerSource.ts';
import { daylight, newFolder, textFile } from './run.ts';

const cornerWith = (...assets: string[]) => textFile(JSON.stringify({ ...JSON.parse(cornerText()), assets }));
const STEPS = ['--travel-steps', '3', '--steer-steps', '3', '--chord', '0.5'];

it('reads the files that a corner lists from its folder, and lists them in results and report', async () => {
  const file = cornerWith('bracket.stl');
  const content = Buffer.from(Array.from({ length: 300 }, (_, k) => k % 256));
  writeFileSync(join(dirname(file), 'bracket.stl'), content);
  const record = {
    name: 'bracket.stl',
    bytes: 300,
    sha256: createHash('sha256').update(content).digest('hex'),
  };
  const folder = newFolder();
  const ran = await daylight(['sweep', file, '--out', folder, ...STEPS]);
  expect(ran.stdout).toContain(`Asset bracket.stl: 300 bytes, SHA-256 ${record.sha256}`);
  const [findings, results] = ['findings.json', 'results.json'].map((name) =>
    JSON.parse(readFileSync(join(folder, name), 'utf8')),
  );
  expect([findings.assets, results.assets]).toEqual([[record], [record]]);
  await daylight(['report', file, '--out', folder, ...STEPS]);
  expect(readFileSync(join(folder, 'report.md'), 'utf8')).toContain(record.sha256);
  const bare = await daylight(['check', textFile(cornerText()), '--json']);
  expect(JSON.parse(bare.stdout).assets).toEqual([]);
  expect(JSON.parse(bare.stdout).designHash).not.toBe(findings.designHash);
});

it('rejects a corner whose asset is missing, with its path, its name and a remedy', async () => {
  const { code, stderr } = await daylight(['check', cornerWith('bracket.stl')]);
  expect(code).toBe(65);
  expect(stderr).toMatch(
    /assets\[0\]: is not beside the corner file; put the file into the same folder .*, or remove its name \(found "bracket.stl"\)/,
  );
});

it('rejects a name with a path, although there is such a file', async () => {
  const file = cornerWith('parts/bracket.stl', '..');
  mkdirSync(join(dirname(file), 'parts'));
  writeFileSync(join(dirname(file), 'parts', 'bracket.stl'), 'solid');
  const { code, stderr } = await daylight(['check', file]);
  expect(code).toBe(65);
  expect(stderr).toMatch(/assets\[0\]: has the path separator \/; write the name of a file in the folder/);
  expect(stderr).toMatch(/assets\[1\]: is a folder/);
});

it('reports an asset that cannot be opened', async () => {
  const file = cornerWith('bracket.stl');
  mkdirSync(join(dirname(file), 'bracket.stl'));
  const { code, stderr } = await daylight(['check', file]);
  expect(code).toBe(66);
  expect(stderr).toMatch(/bracket\.stl: cannot be opened: it is a folder/);
});
