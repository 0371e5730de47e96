import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { proveInProcess, sweepInProcess } from '../../src/executors/inProcess.ts';
import { studyClocking } from '../../src/studies/clocking/study.ts';
import { setUp } from '../../src/sweep/setUp.ts';
import { readDesign } from '../design/readDesign.ts';
import { cases } from '../oracles/random.ts';
import { digestOfClocking, digestsOf, STEPS } from './bytes/digests.ts';
import { connectBrowser, pageAt } from './opened.ts';

const DEMOS = resolve(import.meta.dirname, '../../demo-data');

const TURNED = ['wheel', 'hub', 'rotor', 'caliper', 'upright'];
/** One demo, and in deep runs all. `againstCommand.test.ts` compares another one with the command line. */
const SWEPT = ['stoneyholt', 'gravelbeck', 'larkrise', 'gravelbeck-mm'].slice(0, cases(1, 4));

let browser: Browser;
let page: Page;

beforeAll(async () => {
  browser = await connectBrowser();
  page = await browser.newPage();
  await page.goto(pageAt('/tests/browser/bytes/index.html'));
  await page.waitForFunction(() => 'sweptInWorkers' in window);
});

afterAll(async () => {
  await browser?.close();
});

async function sweptInNode(text: string): Promise<Record<string, string>> {
  const design = readDesign(text);
  const setup = await setUp(design, STEPS);
  const result = await sweepInProcess(setup);
  return digestsOf(result, await proveInProcess(setup, result));
}

describe('a sweep and its proof in browser workers', () => {
  it.each(SWEPT)('give the same bytes as Node: %s', async (name) => {
    const text = readFileSync(join(DEMOS, `${name}.corner.json`), 'utf8');
    const inNode = await sweptInNode(text);
    const inBrowser = await page.evaluate((design) => window.sweptInWorkers(design), text);
    expect(Object.keys(inNode).length).toBeGreaterThan(9);
    expect(inBrowser).toEqual(inNode);
  });
});

describe('a clocking study in browser workers', () => {
  it('gives the same bytes as Node in one thread', async () => {
    const { pairs: _, ...corner } = JSON.parse(readFileSync(join(DEMOS, 'stoneyholt.corner.json'), 'utf8'));
    // Fewer parts: a study of the whole demo takes half a minute.
    const parts = corner.parts.filter(({ kind }: { kind: string }) => TURNED.includes(kind));
    const text = JSON.stringify({ ...corner, parts });
    const parsed = readDesign(text);
    const inNode = digestOfClocking(await studyClocking(await setUp(parsed, STEPS)));
    expect(await page.evaluate((design) => window.clockedInWorkers(design), text)).toBe(inNode);
  });
});
