import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { minimalCorner } from '../design/fixtures.ts';
import { launchChromium } from './chromium.ts';
import { type Served, serveWorkbench } from './server.ts';

let served: Served;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  served = await serveWorkbench();
  browser = await launchChromium();
  page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  // The page's workers, so that the test can make one of the engine's end as one does that runs out of memory.
  await page.addInitScript(() => {
    const made: Worker[] = [];
    Object.assign(window, { madeWorkers: made });
    window.Worker = class extends Worker {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        if (String(url).includes('browserWorker')) made.push(this);
      }
    };
  });
});

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

const text = async (selector: string) => (await page.locator(selector).textContent()) ?? '';

it('a worker that dies is told, nothing of the sweep is shown as whole, and trying again works', async () => {
  await page.goto(new URL('/tests/app/coarse/index.html?demo=larkrise', served.url).href);
  await page.getByRole('button', { name: 'I have read this' }).click({ timeout: 60_000 });
  const corner = JSON.stringify(minimalCorner());
  await page.locator('[data-progress=done]').waitFor({ timeout: 120_000 });
  const whole = await text('.counts');
  // Every worker dies as soon as the next sweep has a row.
  await page.evaluate(() => {
    const { madeWorkers } = window as unknown as { madeWorkers: Worker[] };
    const dieWhenSweeping = new MutationObserver(() => {
      const bar = document.querySelector<HTMLProgressElement>('[data-progress=running] progress');
      if (bar === null || bar.value === 0) return;
      dieWhenSweeping.disconnect();
      for (const worker of madeWorkers) {
        worker.terminate();
        worker.dispatchEvent(new ErrorEvent('error', { message: 'out of memory' }));
      }
    });
    dieWhenSweeping.observe(document.body, { subtree: true, childList: true, attributes: true });
  });
  await page.getByLabel('Corner file').setInputFiles({
    name: 'bench.corner.json',
    mimeType: 'application/json',
    buffer: Buffer.from(corner),
  });
  await page.locator('[data-progress=failed]').waitFor({ timeout: 60_000 });
  expect(await text('[data-testid=sweep-status]')).toContain(
    'Sweep failed: a sweep worker died: out of memory',
  );
  expect(await page.getByRole('button', { name: 'Clearance report' }).isDisabled()).toBe(true);
  expect(await text('.counts')).toMatch(/^so far/);
  await page.getByRole('button', { name: 'Try again' }).click();
  await page.locator('[data-progress=done]').waitFor({ timeout: 120_000 });
  expect(await text('.counts')).not.toMatch(/so far/);
  expect(await text('.counts')).not.toBe(whole);
});
