import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchChromium } from './chromium.ts';
import { type Served, serveWorkbench } from './server.ts';

let served: Served;
let browser: Browser;
let page: Page;
const errors: string[] = [];

const pairs = () => page.getByRole('listbox', { name: 'Pairs by margin' });
const button = (name: string) => page.getByRole('button', { name, exact: true });
const slide = () => page.getByRole('slider', { name: 'Slide of the section' });
const picture = () => page.getByLabel('The corner in three dimensions').locator('canvas').screenshot();
const names = () => page.locator('[data-testid=cut-name]:visible').allTextContents();

/** Presses Tab until what has the focus is of this name. */
async function tabTo(name: string): Promise<void> {
  const focused = () =>
    page.evaluate(() => {
      const { activeElement: at } = document;
      return (
        at?.getAttribute('aria-label') ??
        (at as HTMLInputElement)?.labels?.[0]?.textContent ??
        at?.textContent
      );
    });
  for (let presses = 0; presses < 150; presses++) {
    if ((await focused()) === name) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`the keyboard does not come to ${name}`);
}

beforeAll(async () => {
  served = await serveWorkbench();
  browser = await launchChromium();
  page = await browser.newPage({ viewport: { width: 1440, height: 900 }, reducedMotion: 'reduce' });
  page.on('pageerror', (error) => errors.push(error.message));
  await page.goto(new URL('/tests/app/coarse/index.html?demo=saltpan', served.url).href);
  await page.getByRole('button', { name: 'I have read this' }).click({ timeout: 60_000 });
  // Tight spots are known once every step is measured: the proof goes on beside what follows.
  await page.locator('button:enabled').filter({ hasText: 'Clearance report' }).waitFor({ timeout: 110_000 });
});

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

describe('a section', () => {
  it('through the tight spot with the mouse: both parts are named at the cut, beside the dimension', async () => {
    await pairs().getByRole('option').filter({ hasText: 'Wheel 17 × 9 ↔ Tie rod' }).last().click();
    await page.locator('[data-testid=dimension]:not([data-stale])').waitFor();
    await button('Section').click();
    await page.getByRole('region', { name: 'Section' }).waitFor();
    expect(await button('Gap').getAttribute('aria-pressed')).toBe('true');
    await expect.poll(names, { timeout: 15_000 }).toEqual(['Wheel 17 × 9', 'Tie rod']);
    expect(await page.locator('[data-testid=dimension]:visible').textContent()).toMatch(/^\d/);
    expect(await page.getByRole('region', { name: 'Section' }).textContent()).toContain(
      'stands fixed in the vehicle',
    );
  });

  it('slid off the gap names nothing, and a changed picture shows it', async () => {
    const before = await picture();
    await page.getByLabel('Slide', { exact: true }).fill('1/2 in');
    await page.keyboard.press('Enter');
    expect(await slide().getAttribute('aria-valuetext')).toBe('12.7 mm');
    await expect.poll(names).toEqual([]);
    await expect.poll(async () => before.equals(await picture()), { timeout: 15_000 }).toBe(false);
    await page.getByLabel('Slide', { exact: true }).fill('0');
    await page.keyboard.press('Enter');
    await expect.poll(names, { timeout: 15_000 }).toHaveLength(2);
  });

  it('keeps what cannot be as it was typed, and says what is wrong', async () => {
    const input = page.getByLabel('Slide', { exact: true });
    await input.fill('5 furlongs');
    await page.keyboard.press('Enter');
    expect(await input.inputValue()).toBe('5 furlongs');
    expect(await input.getAttribute('aria-invalid')).toBe('true');
    expect(await page.getByRole('alert').textContent()).toContain('"furlongs" is not a unit');
    await page.keyboard.press('Escape');
    expect(await input.inputValue()).toBe('0');
  });

  it('is dragged by its handle in the view', async () => {
    await button('Corner').click();
    const handle = page.locator('[data-testid=section-handle]:visible');
    // The view comes to rest.
    let at = await handle.boundingBox();
    await expect
      .poll(
        async () => {
          const before = at;
          at = await handle.boundingBox();
          return before !== null && at !== null && before.x === at.x && before.y === at.y;
        },
        { interval: 700, timeout: 20_000 },
      )
      .toBe(true);
    if (at === null) throw new Error('there is no handle');
    await page.mouse.move(at.x + at.width / 2, at.y + at.height / 2);
    await page.mouse.down();
    await page.mouse.move(at.x + at.width / 2 + 25, at.y + at.height / 2 + 25, { steps: 4 });
    await page.mouse.up();
    expect(Number(await slide().inputValue())).not.toBe(0);
    await button('Section').click();
    await page.getByRole('region', { name: 'Section' }).waitFor({ state: 'detached' });
  });

  it('goes with the pair in hand', async () => {
    await button('Section').click();
    const region = page.getByRole('region', { name: 'Section' });
    await pairs().getByRole('option').filter({ hasText: 'Wheel 17 × 9 ↔ Donor caliper' }).click();
    await expect
      .poll(() => region.textContent(), { timeout: 15_000 })
      .toContain('Donor caliper: rides with both');
    await expect.poll(names, { timeout: 15_000 }).toEqual(['Wheel 17 × 9', 'Donor caliper']);
    await button('Section').click();
  });

  it('lets a press through where it has cut away what stood there', async () => {
    await button('All pairs').click();
    await button('Section').click();
    await button('Across').click();
    const canvas = page.getByLabel('The corner in three dimensions').locator('canvas');
    const chosen = page.locator('.part[data-chosen=true] .part-name span:first-child');
    const pressed = async (depth: string) => {
      await page.getByLabel('Depth', { exact: true }).fill(depth);
      await page.keyboard.press('Enter');
      await button('Outboard').click();
      await page.waitForTimeout(1500);
      const box = await canvas.boundingBox();
      if (box === null) throw new Error('there is no picture');
      // In the middle of the wheel, below the bars: hub and spokes, and once they are cut away what stands behind.
      const bars = await page.locator('.viewer-head').boundingBox();
      const top = (bars?.y ?? 0) + (bars?.height ?? 0) - box.y;
      await canvas.click({ position: { x: box.width / 2, y: (top + box.height) / 2 } });
      return await chosen.allTextContents();
    };
    const whole = await pressed('300');
    const cut = await pressed('-260');
    expect(whole).toContain('Donor hub');
    expect(cut).not.toEqual(whole);
    await button('Section').click();
  });

  it('through the tight spot with the keyboard alone', async () => {
    await pairs().focus();
    const chosen = pairs().getByRole('option', { selected: true });
    await page.keyboard.press('Home');
    for (let presses = 0; presses < 10; presses++) {
      if ((await chosen.locator('.pair-name').textContent()) === 'Wheel 17 × 9 ↔ Tie rod') break;
      await page.keyboard.press('ArrowDown');
    }
    await page.locator('[data-testid=dimension]:not([data-stale])').waitFor();
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await tabTo('Section');
    await page.keyboard.press('Enter');
    await expect.poll(names, { timeout: 15_000 }).toEqual(['Wheel 17 × 9', 'Tie rod']);
    await tabTo('Slide of the section');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    expect(await slide().getAttribute('aria-valuetext')).toBe('11 mm');
    await page.keyboard.press('0');
    await tabTo('About the gap');
    await page.keyboard.press('Shift+ArrowUp');
    expect(await page.getByLabel('About the gap').inputValue()).toBe('10°');
    // Turned about the gap the plane still holds it.
    await expect.poll(names, { timeout: 15_000 }).toHaveLength(2);
    expect(errors).toEqual([]);
  });

  it('is laid anew through the gap of a changed corner where it still stands, else says that it is of before', async () => {
    const region = page.getByRole('region', { name: 'Section' });
    const typed = async (text: string) => {
      await page.getByLabel('Tube diameter', { exact: true }).fill(text);
      await page.keyboard.press('Enter');
    };
    await page
      .locator('.parts-list')
      .getByRole('button', { name: /^Tie rod tube/ })
      .click();
    const before = await page.locator('[data-testid=dimension]').textContent();
    await typed('1 in');
    await expect
      .poll(() => page.locator('[data-testid=dimension]:not([data-stale])').textContent(), {
        timeout: 60_000,
      })
      .not.toBe(before);
    await expect.poll(names, { timeout: 15_000 }).toEqual(['Wheel 17 × 9', 'Tie rod']);
    expect(await region.textContent()).not.toContain('before the last change');
    await page.getByRole('slider', { name: 'Travel', exact: true }).focus();
    await page.keyboard.press('End');
    await typed('1 1/8 in');
    await expect.poll(() => region.textContent(), { timeout: 60_000 }).toContain('before the last change');
    await expect.poll(names, { timeout: 15_000 }).toEqual([]);
    expect(errors).toEqual([]);
  });
});
