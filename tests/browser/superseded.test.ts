import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { pairLabel } from '../../src/app/kit/words.ts';
import { buildSolids } from '../../src/solids/catalogue.ts';
import { planPairs } from '../../src/sweep/pairs.ts';
import { readDesign } from '../design/readDesign.ts';
import { connectBrowser, pageAt, VIEW } from './opened.ts';

const [FIRST, SECOND] = ['gravelbeck', 'larkrise'].map((name) =>
  readFileSync(resolve(import.meta.dirname, `../../demo-data/${name}.corner.json`), 'utf8'),
);

let browser: Browser;
let page: Page;

beforeAll(async () => {
  browser = await connectBrowser();
  page = await browser.newPage(VIEW);
});

afterAll(async () => {
  await browser?.close();
});

/** The labels of all pairs of a corner file. */
async function labelsOf(text: string): Promise<ReadonlySet<string>> {
  const design = readDesign(text);
  const solids = await buildSolids(design.corner, 0.5);
  return new Set(planPairs(design.corner, solids).pairs.map((pair) => pairLabel(solids, pair)));
}

it('shows only the new corner when one is opened while another is swept', async () => {
  // Computed first, because the sweep in the browser does not wait.
  const [old, own] = [await labelsOf(FIRST), await labelsOf(SECOND)];
  const foreign = [...old].filter((label) => !own.has(label));
  expect(foreign.length).toBeGreaterThan(5);

  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  await page.goto(pageAt('/'));
  await page.getByRole('button', { name: 'I have read this' }).click();
  const list = page.getByRole('listbox', { name: 'Pairs by margin' });
  const nameOf = (text: string): string => JSON.parse(text).name;

  await page.getByRole('progressbar', { name: 'Sweep' }).waitFor({ timeout: 60_000 });
  await list.getByRole('option').first().waitFor();
  const before = await list.locator('.pair-name').allTextContents();
  expect(before.some((label) => foreign.includes(label))).toBe(true);
  // From now on every state of the page is checked.
  await page.evaluate(
    ({ title, labels }) => {
      const seen = new Set<string>();
      Object.assign(window, { seenBeside: seen });
      new MutationObserver(() => {
        if (!document.querySelector('h1')?.textContent?.startsWith(title)) return;
        for (const name of document.querySelectorAll('.pair-name'))
          if (labels.includes(name.textContent ?? '')) seen.add(name.textContent ?? '');
      }).observe(document.body, { subtree: true, childList: true, characterData: true });
    },
    { title: nameOf(SECOND), labels: foreign },
  );
  await page
    .getByRole('combobox', { name: 'Open an example or recent corner' })
    .selectOption({ label: nameOf(SECOND) });
  await page.getByRole('heading', { level: 1, name: nameOf(SECOND) }).waitFor({ timeout: 60_000 });
  await page.getByRole('progressbar', { name: 'Proof between the steps' }).waitFor({ timeout: 150_000 });

  const shown = await list.locator('.pair-name').allTextContents();
  expect(shown.length).toBeGreaterThan(5);
  for (const label of shown) expect(own, label).toContain(label);
  const beside = await page.evaluate(() => [
    ...(window as unknown as { seenBeside: Set<string> }).seenBeside,
  ]);
  expect(beside).toEqual([]);
  expect(faults).toEqual([]);
});
