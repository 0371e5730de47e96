import type { Locator } from 'playwright-core';
import { expect, it } from 'vitest';
import { onWorkbench, swept, toPartsList } from './onWorkbench.ts';

const bench = onWorkbench({ demo: 'gravelbeck', waitMs: 20_000 });

const SOON = { timeout: 60_000 };
const pairs = () => bench.page.getByRole('listbox', { name: 'Pairs by margin' });
const field = (name: string) => bench.page.getByLabel(name, { exact: true });
const hasFocus = (target: Locator) => target.evaluate((element) => element.contains(document.activeElement));
const boxOf = async (element: Locator) =>
  (await element.boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
const overlap = async (one: Locator, other: Locator): Promise<boolean> => {
  const [a, b] = [await boxOf(one), await boxOf(other)];
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
};

it('skips to the pairs by Tab and Enter, and goes from region to region by F6', async () => {
  const { page } = bench;
  await page.locator('body').press('Tab');
  await page.keyboard.press('Enter');
  expect(await hasFocus(pairs())).toBe(true);
  await page.keyboard.press('ArrowDown');
  await page.locator('.pair[aria-selected=true]').waitFor();
  const regions = [
    page.getByRole('region', { name: 'Charts and figures' }),
    page.getByRole('banner'),
    page.getByRole('complementary', { name: 'Parts' }),
    page.getByRole('region', { name: 'The corner in three dimensions' }),
    page.getByRole('complementary', { name: 'Clearances' }),
  ];
  const passed: number[] = [];
  for (let k = 0; k < regions.length; k++) {
    await page.keyboard.press('F6');
    for (const [index, region] of regions.entries()) if (await hasFocus(region)) passed.push(index);
  }
  expect(passed.toSorted()).toEqual([0, 1, 2, 3, 4]);
  await page.keyboard.press('Shift+F6');
  expect(await hasFocus(regions[passed[passed.length - 2]])).toBe(true);
});

it('names every pair, including those outside the viewport', async () => {
  const texts = await pairs().getByRole('option').allTextContents();
  expect(texts.length).toBeGreaterThan(30);
  const tree = await pairs().ariaSnapshot();
  expect(tree.match(/option "[^"]+ ↔ [^"]+, margin /g)).toHaveLength(texts.length);
});

it('shows help for the focused field, and a slider that covers no other field', async () => {
  const { page } = bench;
  await page
    .locator('.parts-list')
    .getByRole('button', { name: /^Rotor/ })
    .click();
  const help = page.locator('.field-help');
  expect(await help.count()).toBe(0);
  await field('Hat thickness').focus();
  const row = page.locator('.bench-row').filter({ has: field('Hat thickness') });
  expect(await help.textContent()).toBe(await row.getAttribute('title'));
  const slider = field('Slide Hat thickness');
  for (const other of ['Hat diameter', 'Height']) expect(await overlap(slider, field(other))).toBe(false);
  await toPartsList(page);
  expect(await help.count()).toBe(0);
});

it('keeps the text of a dimension within its sketch', async () => {
  const { page } = bench;
  await page
    .locator('.parts-list')
    .getByRole('button', { name: /^Wheel/ })
    .click();
  for (const name of ['Backspacing', 'Lip', 'Pad diameter']) {
    await field(name).focus();
    const [figure, sketch] = [
      await boxOf(page.locator('.sketch-lit text')),
      await boxOf(page.locator('.sketch')),
    ];
    expect(figure.width).toBeGreaterThan(10);
    expect(figure.x).toBeGreaterThanOrEqual(sketch.x);
    expect(figure.x + figure.width).toBeLessThanOrEqual(sketch.x + sketch.width);
  }
  await toPartsList(page);
});

it('keeps the rows of the pairs while a changed corner is swept, marked as before the last change', async () => {
  const { page } = bench;
  await page.evaluate(() => {
    const list = document.querySelector('.pair-list');
    const least = { rows: Number.POSITIVE_INFINITY, stale: false };
    Object.assign(window, { least });
    const watch = new MutationObserver(() => {
      least.rows = Math.min(least.rows, list?.childElementCount ?? 0);
      least.stale ||=
        document.querySelector('.pair-heading')?.textContent?.includes('before the last change') === true;
    });
    watch.observe(document.querySelector('.pair-panel') as Element, {
      subtree: true,
      childList: true,
      characterData: true,
    });
  });
  await page
    .locator('.parts-list')
    .getByRole('button', { name: /^Rotor/ })
    .click();
  await field('Diameter').press('ArrowDown');
  const undo = page.getByRole('button', { name: /^Undo Rotor/ });
  await undo.waitFor(SOON);
  await page.locator('[data-testid=sweep-status]:not([data-progress=done])').waitFor(SOON);
  await swept(page);
  const least = await page.evaluate(() => (window as unknown as { least: unknown }).least);
  expect(least).toEqual({ rows: expect.any(Number), stale: true });
  expect((least as { rows: number }).rows).toBeGreaterThan(30);
  expect(await page.locator('.pair-heading').textContent()).not.toContain('before');
});

it('has a heading for every column of the held poses', async () => {
  const { page } = bench;
  await page.getByRole('button', { name: 'Hold this pose' }).click();
  const table = page.getByRole('region', { name: 'Held poses' });
  for (const text of await table.locator('thead :is(th, td)').allTextContents()) expect(text).not.toBe('');
});

it('keeps the tape length outside the tape panel', async () => {
  const { page } = bench;
  await page.getByRole('button', { name: 'Tape', exact: true }).click();
  await page.getByText('Choose from list').click();
  for (const name of [/^hole centre/, /^flat face/]) await page.getByRole('option', { name }).first().click();
  const [label, panel] = [page.getByTestId('tape-length'), page.locator('.tape-panel')];
  await label.waitFor();
  expect(await overlap(label, panel)).toBe(false);
  // Also after the picture is moved.
  const canvas = await boxOf(page.locator('.viewer canvas'));
  const [x, y] = [canvas.x + canvas.width / 3, canvas.y + canvas.height - 200];
  await page.mouse.move(x, y);
  await page.mouse.down({ button: 'right' });
  for (const dx of [-60, -120, -180, -240]) {
    await page.mouse.move(x + dx, y, { steps: 3 });
    await page.waitForTimeout(200);
    expect(await overlap(label, panel)).toBe(false);
  }
  await page.mouse.up({ button: 'right' });
});
