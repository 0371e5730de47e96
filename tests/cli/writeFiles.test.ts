import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { EXIT } from '../../src/cli/exit.ts';
import { writeFiles } from '../../src/cli/writeFiles.ts';

const NEVER = new AbortController().signal;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'daylight-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

it('creates missing folders, and writes into existing ones', async () => {
  const place = join(folder, 'a', 'b', 'c');
  for (const data of ['one', 'two']) {
    await writeFiles(place, [{ name: 'x.txt', data }], NEVER);
    expect(readFileSync(join(place, 'x.txt'), 'utf8')).toBe(data);
  }
});

it('fails if a folder cannot be created: inside a file and, on Linux, in /proc', async () => {
  await writeFiles(folder, [{ name: 'file', data: '' }], NEVER);
  const places = [
    join(folder, 'file', 'deeper'),
    ...(process.platform === 'linux' ? ['/proc/daylight/x'] : []),
  ];
  for (const place of places) {
    await expect(writeFiles(place, [{ name: 'x.txt', data: '' }], NEVER)).rejects.toMatchObject({
      code: EXIT.noOutput,
    });
  }
});
