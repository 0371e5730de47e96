import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { proveInProcess, sweepInProcess } from '../../src/executors/inProcess.ts';
import { studyClocking } from '../../src/studies/clocking/study.ts';
import { setUp } from '../../src/sweep/setUp.ts';
import { digestOfClocking, digestsOf, STEPS } from './bytes/digests.ts';
import { launchChromium } from './chromium.ts';
import { type Served, serveWorkbench } from './server.ts';

const DEMOS = resolve(import.meta.dirname, '../../demo-data');

let served: Served;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  served = await serveWorkbench();
  browser = await launchChromium();
  page = await browser.newPage();
  await page.goto(new URL('/tests/browser/bytes/index.html', served.url).href);
  await page.waitForFunction(() => 'sweptInWorkers' in window);
});

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

async function sweptInNode(text: string): Promise<Record<string, string>> {
  const parsed = parseDesign(text);
  if (parsed.kind === 'bad') throw new Error('the example corner is not sound');
  const setup = await setUp(parsed.design, STEPS);
  const result = await sweepInProcess(setup);
  return digestsOf(result, await proveInProcess(setup, result));
}

describe('a sweep and its proof in workers of a browser', () => {
  it.each(readdirSync(DEMOS).filter((name) => name.endsWith('.corner.json')))(
    'give the bytes that Node gives: %s',
    async (name) => {
      const text = readFileSync(join(DEMOS, name), 'utf8');
      const inNode = await sweptInNode(text);
      const inBrowser = await page.evaluate((design) => window.sweptInWorkers(design), text);
      expect(Object.keys(inNode).length).toBeGreaterThan(9);
      expect(inBrowser).toEqual(inNode);
    },
  );
});

describe('a clocking study in workers of a browser', () => {
  it('gives the bytes that Node gives in one thread', async () => {
    const text = readFileSync(join(DEMOS, 'stoneyholt.corner.json'), 'utf8');
    const parsed = parseDesign(text);
    if (parsed.kind === 'bad') throw new Error('the example corner is not sound');
    const inNode = digestOfClocking(await studyClocking(await setUp(parsed.design, STEPS)));
    expect(await page.evaluate((design) => window.clockedInWorkers(design), text)).toBe(inNode);
  });
});
