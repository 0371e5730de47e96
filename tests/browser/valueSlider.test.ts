import { expect, it } from 'vitest';
import { onWorkbench } from './onWorkbench.ts';

const bench = onWorkbench({ demo: 'larkrise' });

it('a drag of a value slider updates a pair that never moves, and is one change', async () => {
  const { page } = bench;
  const row = page.getByRole('option').filter({ hasText: 'Four-piston caliper' }).first();
  const gap = () => row.locator('.pair-gap').textContent();
  const before = await gap();
  await page
    .locator('.parts-list')
    .getByRole('button', { name: /^Four-piston caliper/ })
    .click();
  const field = page.getByLabel('Body, outer radius', { exact: true });
  const typed = await field.inputValue();
  const slider = page.getByLabel('Slide Body, outer radius', { exact: true });
  expect(await slider.isVisible()).toBe(false);
  await field.click();
  // In sight once the help of the field is shown.
  await expect
    .poll(() =>
      slider.evaluate(
        (shown) =>
          document.elementFromPoint(
            shown.getBoundingClientRect().x + 5,
            shown.getBoundingClientRect().y + 5,
          ) === shown,
      ),
    )
    .toBe(true);
  const box = await slider.boundingBox();
  if (box === null) throw new Error('the slider is not drawn');
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  for (const share of [0.45, 0.4, 0.3]) {
    await page.mouse.move(box.x + share * box.width, box.y + box.height / 2);
    // Longer than the interval in which single steps merge.
    await page.waitForTimeout(700);
  }
  const dragged = await field.inputValue();
  expect(dragged).not.toBe(typed);
  expect(dragged).toMatch(/ mm ±0\.3$/);
  expect(await slider.getAttribute('aria-valuetext')).toBe(dragged);
  await page.mouse.up();
  // A smaller caliper has more clearance.
  await expect.poll(async () => Number(await gap()), { timeout: 60_000 }).toBeGreaterThan(Number(before));
  await page.keyboard.press('Control+z');
  await expect.poll(() => field.inputValue()).toBe(typed);
  await expect.poll(gap, { timeout: 60_000 }).toBe(before);
});
