/**
 * How soon the workbench is of use, and whether it ever keeps a person waiting: `npx tsx tests/bench/startUp.ts`. Serves
 * the built application to a headless Chromium, which draws in software, in a process of its own but on the same cores.
 * With `--served` the development server is measured instead, `--trace` tells what the long tasks are made of.
 */
import { cpus, loadavg } from 'node:os';
import type { Browser, Page } from 'playwright-core';
import { launchChromium } from '../browser/chromium.ts';
import { serveWorkbench } from '../browser/server.ts';
import { longTasks, TRACED } from './mainThread.ts';
import { type Watched, watchPage } from './pageWatch.ts';
import { serveBuild } from './serveBuild.ts';

const RUNS = 3;
const KEY_EVERY_MS = 70;
const LONG_MS = 50;
/** Asked of each frame, as is usual, the question would have the page draw frames that nobody wants. */
const POLL_MS = 200;
const tracing = process.argv.includes('--trace');

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

const told = (values: readonly (number | undefined)[]): string => {
  const known = values.filter((value) => value !== undefined);
  return `${median(known).toFixed(0).padStart(7)} ms   (${known.map((ms) => ms.toFixed(0)).join(', ')})`;
};

/** A visit by someone new: nothing in the cache. */
async function visit<T>(browser: Browser, url: string, during: (page: Page) => Promise<T>): Promise<T> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  // Helpers that a compiler puts beside a function's text do not go with it into the page.
  await context.addInitScript(`globalThis.__name = (f) => f; (${watchPage.toString()})()`);
  const page = await context.newPage();
  try {
    await page.goto(url, { waitUntil: 'commit' });
    return await during(page);
  } finally {
    await context.close();
  }
}

const proved = (page: Page) =>
  page.waitForFunction(() => window.watched.proofDone, null, { polling: POLL_MS, timeout: 120_000 });
const watchedOf = (page: Page): Promise<Watched> => page.evaluate(() => window.watched);

interface Visit extends Watched {
  firstPaint: number;
  loaded: number;
}

const plainVisit = (page: Page): Promise<Visit> =>
  proved(page).then(() =>
    page.evaluate(() => ({
      ...window.watched,
      firstPaint: performance.getEntriesByName('first-contentful-paint')[0]?.startTime,
      loaded: (performance.getEntriesByType('navigation')[0] as PerformanceNavigationTiming).loadEventEnd,
    })),
  );

async function keysWhileSweeping(page: Page): Promise<number[]> {
  await page.waitForFunction(() => window.watched.cornerDrawn);
  await page.getByRole('slider', { name: 'Travel', exact: true }).focus();
  for (let press = 0; (await watchedOf(page)).sweepDone === undefined; press++) {
    await page.keyboard.press(press % 40 < 20 ? 'ArrowUp' : 'ArrowDown');
    await page.waitForTimeout(KEY_EVERY_MS);
  }
  return (await watchedOf(page)).keysMs;
}

const served = process.argv.includes('--served')
  ? await serveWorkbench()
  : await serveBuild({ minified: !tracing });
const browser = await launchChromium();
try {
  console.log(`${cpus()[0].model} x ${cpus().length}, load ${loadavg()[0].toFixed(2)}, ${browser.version()}`);
  if (tracing) {
    await visit(browser, served.url, async (page) => {
      await browser.startTracing(page, { categories: TRACED });
      await page.reload({ waitUntil: 'commit' });
      await proved(page);
      const trace = JSON.parse((await browser.stopTracing()).toString());
      for (const task of longTasks(trace, LONG_MS)) {
        console.log(
          `at ${task.atMs.toFixed(0)} ms: ${task.ms.toFixed(0)} ms, ${task.cpuMs.toFixed(0)} of them on a core`,
        );
        for (const part of [task.within, task.functions])
          console.log(
            `   ${part
              .slice(0, 12)
              .map(({ name, ms }) => `${name} ${ms.toFixed(0)}`)
              .join(', ')}`,
          );
      }
    });
  } else {
    const visits: Visit[] = [];
    for (let run = 0; run < RUNS; run++) visits.push(await visit(browser, served.url, plainVisit));
    console.log(`from navigation to          median   (${RUNS} visits, nothing cached)`);
    const line = (what: string, of: (one: Visit) => number | undefined) =>
      console.log(`${what.padEnd(24)} ${told(visits.map(of))}`);
    line('first paint', (one) => one.firstPaint);
    line('scripts loaded', (one) => one.loaded);
    line('corner drawn', (one) => one.cornerDrawn);
    line('first rows on the map', (one) => one.mapDrawn);
    line('sweep done', (one) => one.sweepDone);
    line('proof done', (one) => one.proofDone);
    const late = (one: Visit) => one.longTasks.filter(({ at }) => at > one.loaded);
    line('longest task after load', (one) => Math.max(0, ...late(one).map(({ ms }) => ms)));
    for (const one of visits)
      console.log(
        `tasks over ${LONG_MS} ms: ${one.longTasks.map(({ at, ms }) => `${ms.toFixed(0)} at ${at.toFixed(0)}`).join(', ') || 'none'}`,
      );
    const keys = await visit(browser, served.url, keysWhileSweeping);
    console.log(`key to words, while sweeping ${told([...keys])}, worst ${Math.max(...keys).toFixed(0)} ms`);
  }
} finally {
  await browser.close();
  await served.close();
}
