/**
 * Memory of the page's process over many edits: `npx tsx tests/bench/memory.ts [EDITS]`, 5000 by default. On the built
 * workbench, a wheel's width is stepped by arrow keys, as by a held key: faster than the steps can be built. Every
 * BUILT_EVERY-th step is built before the next. Printed every tenth of the way: the process as the system counts it, and
 * the same after garbage collection in the page and its workers and a rest, which is what is held. Exits with 1 where what
 * is held grows by more than LIMIT_MB. Needs `ps`.
 */
import { execFileSync } from 'node:child_process';
import { cpus, loadavg } from 'node:os';
import { launchChromium } from '../browser/chromium.ts';
import { serveBuild } from './serveBuild.ts';

const LIMIT_MB = 200;
/** Steps one way before they turn back. */
const ONE_WAY = 10;
const BUILT_EVERY = 10;
/** After 8 s without much garbage, V8 gives the room for new objects back to the system: up to 64 MB of each worker. */
const REST_MS = 12_000;
const edits = Number(process.argv[2] ?? 5000);

const served = await serveBuild({ minified: true });
const browser = await launchChromium(['--js-flags=--expose-gc']);
try {
  console.log(`${cpus()[0].model} x ${cpus().length}, load ${loadavg()[0].toFixed(2)}, ${browser.version()}`);
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  page.on('pageerror', (error) => console.log(`error in the page: ${error.message}`));
  await page.goto(served.url);
  await page.getByRole('button', { name: 'I have read this' }).click({ timeout: 60_000 });
  const swept = () => page.locator('[data-progress=done]').waitFor({ timeout: 600_000 });
  await swept();
  const system = await browser.newBrowserCDPSession();
  const processMb = async (): Promise<number> => {
    const { processInfo } = await system.send('SystemInfo.getProcessInfo');
    const ids = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => String(id));
    const lines = execFileSync('ps', ['-o', 'rss=', '-p', ids.join()], { encoding: 'utf8' });
    return Math.max(...lines.trim().split('\n').map(Number)) / 1024;
  };
  const collected = async (): Promise<number> => {
    // Twice: what the first frees lets go of more.
    for (let k = 0; k < 2; k++) {
      await page.evaluate('globalThis.gc()');
      // A worker may end meanwhile.
      for (const worker of page.workers()) await worker.evaluate('globalThis.gc()').catch(() => undefined);
    }
    await page.waitForTimeout(REST_MS);
    return processMb();
  };
  await page
    .locator('.parts-list')
    .getByRole('button', { name: /^Wheel/i })
    .first()
    .click();
  const width = page.getByLabel('Width', { exact: true });
  await width.focus();
  const start = await collected();
  console.log(`start: ${start.toFixed(0)} MB held`);
  let most = start;
  for (let edit = 1; edit <= edits; edit++) {
    await page.keyboard.press(edit % (2 * ONE_WAY) < ONE_WAY ? 'ArrowUp' : 'ArrowDown');
    if (edit % BUILT_EVERY === 0)
      await page.locator('.workbench[data-standing=current]').waitFor({ timeout: 120_000 });
    if (edit % Math.ceil(edits / 10) !== 0) continue;
    const now = await processMb();
    await swept();
    const held = await collected();
    most = Math.max(most, held);
    console.log(`${edit} edits: ${now.toFixed(0)} MB, ${held.toFixed(0)} MB held`);
  }
  await swept();
  const end = await collected();
  const grown = Math.max(most, end) - start;
  console.log(`swept at the end: ${end.toFixed(0)} MB held; at most ${grown.toFixed(0)} MB above the start`);
  if (grown > LIMIT_MB) process.exitCode = 1;
} finally {
  await browser.close();
  await served.close();
}
