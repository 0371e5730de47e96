import { expect, it } from 'vitest';
import { wheelCorner } from '../design/fixtures.ts';
import { onWorkbench, swept, typeWheelWidth } from './onWorkbench.ts';

const bench = onWorkbench({ corner: JSON.stringify(wheelCorner()), waitMs: 10_000 });

it('marks figures of an earlier state, and makes no report of them', async () => {
  const { page } = bench;
  const report = page.getByRole('button', { name: 'Clearance report' });
  const status = page.locator('.header .status');
  const opacity = (selector: string) =>
    page
      .locator(selector)
      .first()
      .evaluate((element) => Number(getComputedStyle(element).opacity));
  await expect.poll(() => report.isEnabled()).toBe(true);
  await expect.poll(() => page.locator('.stale-note').count()).toBe(0);
  await expect.poll(() => opacity('.pair-list')).toBe(1);
  const width = await typeWheelWidth(page, '8 1/4 in');
  await page.waitForTimeout(2000);
  await swept(page);
  await width.fill('abc');
  await width.press('Enter');
  const note = 'Not current: state after “wheel, width: 8 1/4 in”';
  for (const place of ['.map-panel', '.pair-panel', '.strip'])
    await page.locator(place).getByText(note).waitFor();
  await expect
    .poll(() => status.textContent())
    .toBe('The file has wrong values. Figures show the state after “wheel, width: 8 1/4 in”.');
  for (const place of ['.pair-list', '.map-pad', '.chart']) {
    const dimmed = page.locator(place).first();
    await expect
      .poll(() =>
        dimmed.evaluate((element) => {
          let least = 1;
          for (let at: Element | null = element; at !== null; at = at.parentElement)
            least = Math.min(least, Number(getComputedStyle(at).opacity));
          return least;
        }),
      )
      .toBeLessThan(0.5);
  }
  await expect.poll(() => report.isDisabled()).toBe(true);
  expect(await report.getAttribute('title')).toBe(
    'No report: the file has wrong values, correct them first.',
  );
  await page.keyboard.press('Control+z');
  await page.locator('.stale-note').first().waitFor({ state: 'detached' });
  await swept(page);
  await expect.poll(() => report.isEnabled()).toBe(true);
  await expect.poll(() => opacity('.pair-list')).toBe(1);
});
