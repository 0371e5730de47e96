/**
 * Time of the space of tyre and wheel over all travel and steer of the river racer, at the default bound: the command on one
 * thread and on one for each core, and the built workbench: `npx tsx tests/bench/space.ts`.
 */
import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { onBuiltWorkbench } from './onBuiltWorkbench.ts';

const FILE = 'demo-data/gravelbeck.corner.json';

async function secondsOf(run: () => Promise<unknown>): Promise<number> {
  const from = performance.now();
  await run();
  return (performance.now() - from) / 1000;
}

async function command(threads: number): Promise<number> {
  const out = mkdtempSync(join(tmpdir(), 'daylight-space-'));
  const typed = ['src/cli/daylight.js', 'space', FILE, '--out', out, '--threads', String(threads)];
  try {
    return await secondsOf(() => promisify(execFile)(process.execPath, typed));
  } finally {
    rmSync(out, { recursive: true });
  }
}

const workbench = (): Promise<number> =>
  onBuiltWorkbench(async (page) => {
    await page.getByRole('button', { name: 'Space of tyre and wheel' }).click();
    return secondsOf(async () => {
      await page.getByRole('button', { name: 'Compute space' }).click();
      await page
        .getByTestId('space')
        .getByText(/^Size along X, Y, Z: /)
        .waitFor({ timeout: 240_000 });
    });
  });

const cores = availableParallelism();
console.log(`${cores} cores, load before ${loadavg()[0].toFixed(1)}`);
for (const threads of new Set([1, cores]))
  console.log(`command, ${threads} threads: ${(await command(threads)).toFixed(1)} s`);
console.log(`workbench: ${(await workbench()).toFixed(1)} s`);
