import { expect, it } from 'vitest';
import { onWorkbench, toPartsList } from './onWorkbench.ts';

/** Timeout of a poll while many corners are built and measured, perhaps on a busy machine. */
const SOON = { timeout: 120_000 };
const bench = onWorkbench({ demo: 'gravelbeck.corner' });

const BORDER =
  /^wheel\.backspacing: every value tried from 4 1\/4 in to (4 [\d/]+) in clears; above that, at (4 [\d/]+) in, Wheel 16 × 8 ↔ .* is [\d.]+ in short of its target/;

const field = (name: string) => bench.page.getByRole('textbox', { name, exact: true });
const tryValues = () => bench.page.getByRole('button', { name: 'Try values' });
const result = () => bench.page.getByTestId('varied');

it('shows the problem of a wrong range or list beside its field, and keeps the typed text', async () => {
  const { page } = bench;
  await page.getByRole('button', { name: 'Variants' }).click();
  const vary = page.getByRole('combobox', { name: 'Vary' });
  await vary.selectOption({ label: 'Wheel 16 × 8: backspacing' });
  await field('From').fill('4 3/4');
  await field('To').fill('4 1/4');
  await tryValues().click();
  const problemOf = async (name: string) => {
    const ids = (await field(name).getAttribute('aria-describedby')) ?? '';
    return (await page.locator(`[id="${ids.split(' ').at(-1)}"]`).textContent()) ?? '';
  };
  expect(await problemOf('To')).toBe('To must be greater than the start of the range, 4 3/4');
  expect(await problemOf('Step')).toBe('Step is empty: write a length, such as 12 mm or 1/2 in');
  expect(await field('From').getAttribute('aria-invalid')).toBe('false');
  expect(await result().count()).toBe(0);

  await vary.selectOption({ label: 'A list of wheels' });
  await field('Wheels').fill('16x8x5 1/2\n16x8');
  await field('Wheels').press('Control+Enter');
  expect(await problemOf('Wheels')).toMatch(
    /^line 2, "16x8": must have 3 dimensions, not 2; write diameter x width/,
  );
  await vary.selectOption({ label: 'Wheel 16 × 8: backspacing' });
  expect(await field('From').inputValue()).toBe('4 3/4');
  expect(await field('To').inputValue()).toBe('4 1/4');
});

it('cancels a range, then tries all of it: shows which values fit, the limit, and what fails beyond it', async () => {
  const { page } = bench;
  await field('From').fill('4 1/4');
  await field('To').fill('4 3/4');
  await field('Step').fill('1/4');
  await field('Step').press('Enter');
  await page.getByRole('button', { name: 'Cancel', exact: true }).click();
  await page.getByText('Cancelled. There is no result.').waitFor(SOON);
  expect(await tryValues().evaluate((button) => button === document.activeElement)).toBe(true);
  expect(await field('Step').inputValue()).toBe('1/4');

  await tryValues().click();
  await result().waitFor(SOON);
  const text = (await result().getByRole('status').textContent()) ?? '';
  expect(text).toMatch(BORDER);
  const border = BORDER.exec(text);
  const [fits, fails] = (border ?? []).slice(1).map(inches);
  expect(fits).toBeGreaterThanOrEqual(4.25);
  expect(fails - fits).toBeCloseTo(1 / 64, 9);
  expect(fails).toBeLessThanOrEqual(4.75);
  const rows = await result().getByRole('row').allInnerTexts();
  expect(rows).toHaveLength(4);
  expect(rows[1]).toMatch(/^4 1\/4 in\s+fits\s+.* has [\d.]+ in more than its target$/);
  expect(rows[3]).toMatch(/^4 3\/4 in\s+◣ tight\s+Wheel 16 × 8 ↔ .* is [\d.]+ in short of its target, at /);
});

it('shows its result only for the corner that it was made from, also after the sheet was closed', async () => {
  const { page } = bench;
  await toPartsList(page);
  await page
    .getByRole('button')
    .filter({ hasText: /^Rotor/ })
    .first()
    .click();
  const diameter = field('Diameter');
  const before = await diameter.inputValue();
  await diameter.press('ArrowUp');
  await expect.poll(() => diameter.inputValue(), SOON).not.toBe(before);
  await page.getByRole('button', { name: 'Variants' }).click();
  await page.getByText('The corner has changed since Wheel 16 × 8: backspacing was tried.').waitFor(SOON);
  expect(await result().count()).toBe(0);
  await page.keyboard.press('Control+z');
  await result().waitFor(SOON);
});

/** "4 35/64". */
function inches(text: string): number {
  const [whole, fraction = '0/1'] = text.split(' ');
  const [over, under] = fraction.split('/').map(Number);
  return Number(whole) + over / under;
}
