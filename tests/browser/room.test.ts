import { expect, it } from 'vitest';
import { onWorkbench } from './onWorkbench.ts';

const bench = onWorkbench({ results: 'made', demo: 'gravelbeck', waitMs: 20_000 });

/** Texts of controls and headings outside the width of the window, and of status texts that are cut off. */
const outside = (): Promise<string[]> =>
  bench.page.evaluate(() => {
    const elements = [
      ...document.querySelectorAll<HTMLElement>('button, select, input, h1, h2, .status > span'),
    ];
    return elements.flatMap((element) => {
      const { left, right, width } = element.getBoundingClientRect();
      if (width < 2 || getComputedStyle(element).clipPath !== 'none') return [];
      const cut = element.matches('.status > span') && element.scrollHeight > element.clientHeight + 1;
      return cut || left < -1 || right > innerWidth + 1 ? [element.textContent ?? ''] : [];
    });
  });
const button = (name: string) => bench.page.getByRole('button', { name, exact: true });

it.each([
  [1440, 900],
  [1280, 800],
  [1024, 700],
  [800, 600],
  [720, 450],
  [360, 225],
])('every control can be reached and a part edited in a window of %i by %i', async (width, height) => {
  const { page } = bench;
  await page.setViewportSize({ width, height });
  await expect.poll(outside).toEqual([]);
  for (const name of ['Save', 'Clearance report']) await button(name).click({ trial: true });
  if (await button('Clearances').isVisible()) await button('Clearances').click();
  const pairs = page.getByRole('listbox', { name: 'Pairs by margin' });
  await pairs.getByRole('option').nth(3).click();
  expect((await pairs.boundingBox())?.height).toBeGreaterThan(120);
  if (await button('Parts').isVisible()) await button('Parts').click();
  const row = page.locator('.parts-list').getByRole('button', { name: /^Rotor/ });
  await row.click();
  const diameter = page.getByLabel('Diameter', { exact: true });
  await diameter.click();
  expect(await row.isVisible()).toBe(false);
  await expect.poll(outside).toEqual([]);
  await button('Parts list').click();
  await expect.poll(() => row.evaluate((element) => element === document.activeElement)).toBe(true);
});

it('keeps every control in reach after a sweep or a proof is cancelled', async () => {
  const { page } = bench;
  await page.setViewportSize({ width: 1440, height: 900 });
  await page
    .getByRole('combobox', { name: /corner/i })
    .first()
    .selectOption({ index: 1 });
  const inReach = async () => {
    for (const width of [1440, 1024, 720]) {
      await page.setViewportSize({ width, height: 700 });
      await expect.poll(outside).toEqual([]);
    }
  };
  await button('Cancel').click({ timeout: 60_000 });
  await page.locator('[data-progress=cancelled]').waitFor();
  await inReach();
  // Sweeps again, then cancels the proof.
  await page.getByTestId('sweep-status').getByRole('button').click();
  await page.getByRole('progressbar', { name: 'Proof between the steps' }).waitFor({ timeout: 60_000 });
  await button('Cancel').click();
  await page.getByText('Proof cancelled').waitFor();
  await inReach();
});

it('changes the width of the left column by keys and by a drag, within the window', async () => {
  const { page } = bench;
  await page.setViewportSize({ width: 1440, height: 900 });
  const column = page.locator('.parts-panel');
  const widthNow = async () => (await column.boundingBox())?.width ?? 0;
  const before = await widthNow();
  const edge = page.getByRole('separator', { name: 'Width of the left column' });
  await edge.focus();
  await edge.press('ArrowRight');
  await expect.poll(widthNow).toBe(before + 16);
  const box = await edge.boundingBox();
  if (box === null) throw new Error('the edge is not drawn');
  await page.mouse.move(box.x + 4, box.y + 300);
  await page.mouse.down();
  await page.mouse.move(box.x + 104, box.y + 300, { steps: 4 });
  await page.mouse.up();
  await expect.poll(widthNow).toBeGreaterThan(before + 100);
  await edge.press('End');
  await expect.poll(widthNow).toBeLessThan(1440 * 0.61);
  expect(await outside()).toEqual([]);
  await edge.dblclick({ position: { x: 4, y: 300 } });
  await expect.poll(widthNow).toBe(before);
});
