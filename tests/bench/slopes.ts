/**
 * Time of what moves each clearance of the river racer: the command for one pair and for all, and the built workbench for
 * the selected pair when the sheet opens and for the next pairs: `npx tsx tests/bench/slopes.ts`.
 */
import { execFile } from 'node:child_process';
import { availableParallelism, loadavg } from 'node:os';
import { promisify } from 'node:util';
import { onBuiltWorkbench } from './onBuiltWorkbench.ts';

const FILE = 'demo-data/gravelbeck.corner.json';
/** Pairs of the list that are selected one after the other. */
const PAIRS = 8;

async function secondsOf(run: () => Promise<unknown>): Promise<string> {
  const from = performance.now();
  await run();
  return `${((performance.now() - from) / 1000).toFixed(2)} s`;
}

const command = (typed: readonly string[]): Promise<string> =>
  secondsOf(() =>
    promisify(execFile)(process.execPath, ['src/cli/daylight.js', 'sensitivity', FILE, '--json', ...typed], {
      maxBuffer: 2 ** 28,
    }),
  );

const workbench = (): Promise<void> =>
  onBuiltWorkbench(async (page) => {
    const options = page.getByRole('listbox', { name: 'Pairs by margin' }).getByRole('option');
    await options.first().click();
    const studied = page.locator('[data-testid=measuring-error] h3');
    const opened = await secondsOf(async () => {
      await page.getByRole('button', { name: 'Measuring error' }).click();
      await studied.first().waitFor({ timeout: 240_000 });
    });
    console.log(`workbench, from opening the sheet: ${opened}`);
    for (let k = 1; k < PAIRS; k++) {
      const before = (await studied.first().textContent()) ?? '';
      const seconds = await secondsOf(async () => {
        await options.nth(k).click();
        await studied.filter({ hasNotText: before }).first().waitFor({ timeout: 240_000 });
      });
      console.log(`workbench, ${await studied.first().textContent()}: ${seconds}`);
    }
    const others = page.getByText(/\d pairs studied$/);
    const background = await secondsOf(async () => {
      await others.waitFor();
      await others.waitFor({ state: 'detached', timeout: 240_000 });
    });
    console.log(`workbench, until the other pairs are studied: ${background}`);
    const last = options.nth((await options.count()) - 1);
    console.log(
      `workbench, a pair studied before: ${await secondsOf(async () => {
        await last.click();
        await page.waitForFunction(
          (name) => document.querySelector('[data-testid=measuring-error] h3')?.textContent?.startsWith(name),
          (await last.locator('.pair-name').textContent()) ?? '',
        );
      })}`,
    );
    const all = await secondsOf(async () => {
      await page.getByRole('button', { name: 'Study all pairs' }).click();
      await page
        .getByTestId('measuring-error')
        .getByText(/pairs studied; /)
        .waitFor({ timeout: 240_000 });
    });
    console.log(`workbench, all pairs: ${all}`);
  });

console.log(`${availableParallelism()} cores, load before ${loadavg()[0].toFixed(1)}`);
console.log(`command, one pair: ${await command(['--pair', 'wheel:tieRodEnd'])}`);
console.log(`command, all pairs: ${await command([])}`);
await workbench();
