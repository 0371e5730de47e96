import { expect, it } from 'vitest';
import { box, boxCorner } from '../studies/vary/boxCorner.ts';
import { onWorkbench } from './onWorkbench.ts';

/** The block rises without turning, 5 mm into the fixed one at full bump; the target is 3 mm. */
const CORNER = boxCorner(
  [
    { ...box('rising', 'upright', [0, 640, 350], [40, 40, 30]), fixed: true },
    box('fixed', 'chassis', [0, 640, 430], [90, 90, 20]),
  ],
  { name: 'Two blocks', unit: 'mm', pairs: [{ between: ['rising', 'fixed'], target: 3 }] },
);
const bench = onWorkbench({ corner: JSON.stringify(CORNER) });
const SOON = { timeout: 120_000 };
const result = () => bench.page.getByTestId('remedies');

it('finds the least changes of the selected pair, and applies one as one change that can be undone', async () => {
  const { page } = bench;
  await page.getByRole('button', { name: 'Remedies' }).click();
  await page.getByText('Choose a pair that touches or is tight').waitFor();
  await page.getByRole('option', { name: /rising/ }).click();
  await page.getByRole('button', { name: 'Find remedies' }).click();
  await result().waitFor(SOON);
  const raised = result().getByRole('group', { name: 'fixed.centre[2] 430 mm to 439 mm' });
  expect(await raised.textContent()).toMatch(
    /Clears: at least .* more than its target\. Everything else clears\./,
  );
  await raised.getByRole('button', { name: 'Apply' }).click();
  await page.getByText('The corner has changed since remedies of').waitFor();
  await page.locator('.pair-list').getByText('clear').waitFor(SOON);
  await page.keyboard.press('Control+z');
  await page.locator('.pair-list').getByText('touches').waitFor(SOON);
});

it('leaves a part alone if its sheet says so', async () => {
  const { page } = bench;
  const parts = page.locator('.parts-list');
  await page.getByRole('button', { name: 'Parts list' }).click();
  await parts.getByRole('button', { name: /^fixed/ }).click();
  await page.getByLabel('Remedies may change').selectOption('no value');
  await page.getByRole('button', { name: 'Parts list' }).click();
  await page.getByRole('option', { name: /rising/ }).click();
  await page.getByRole('button', { name: 'Remedies', exact: true }).click();
  await page.getByRole('button', { name: 'Find remedies' }).click();
  await result().waitFor(SOON);
  expect(
    await result()
      .getByRole('group', { name: /^fixed/ })
      .count(),
  ).toBe(0);
});
