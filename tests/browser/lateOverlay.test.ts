import { expect, it } from 'vitest';
import { onWorkbench } from './onWorkbench.ts';

const bench = onWorkbench({
  demo: 'gravelbeck.corner',
  // Scripts of overlays arrive long after the frame that opening them causes.
  before: (page) =>
    page.route(/(Section|Points|Hold)Overlay/, async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 2000));
      await route.continue();
    }),
});

it('places the names of a section and the points although their overlays are loaded late', async () => {
  const { page } = bench;
  await page.getByRole('option', { name: /^Wheel 16 × 8 ↔ Tie rod,/ }).click();
  await page.locator('[data-testid=dimension]:not([data-stale])').first().waitFor();
  await page.getByRole('button', { name: 'Section', exact: true }).focus();
  await page.keyboard.press('Enter');
  const names = page.locator('[data-testid=cut-name]:visible');
  await expect.poll(() => names.allTextContents(), { timeout: 30_000 }).toEqual(['Wheel 16 × 8', 'Tie rod']);
  await page.getByRole('button', { name: 'Points and suspension' }).focus();
  await page.keyboard.press('Enter');
  const point = page.locator('[data-point]').first();
  await expect.poll(() => point.getAttribute('style'), { timeout: 30_000 }).toMatch(/translate\(/);
});
