import { expect, it } from 'vitest';
import { onWorkbench, toPartsList } from './onWorkbench.ts';

/** For a poll: many corners are built and measured meanwhile, perhaps on a busy machine. */
const SOON = { timeout: 120_000 };
const bench = onWorkbench({ demo: 'saltpan.corner' });

const BORDER =
  /^wheel\.backspacing: every value tried from 5 in to (5 [\d/]+) in clears; above it, tried at (5 [\d/]+) in, Wheel 17 × 9 ↔ .* is [\d.]+ in short of its target/;

const field = (name: string) => bench.page.getByRole('textbox', { name, exact: true });
const tryThem = () => bench.page.getByRole('button', { name: 'Try them' });
const told = () => bench.page.getByTestId('varied');

it('says in words what cannot be tried, beside where it was typed, and loses nothing', async () => {
  const { page } = bench;
  await page.getByRole('button', { name: 'What will fit' }).click();
  const vary = page.getByRole('combobox', { name: 'Vary' });
  await vary.selectOption({ label: 'Wheel 17 × 9: backspacing' });
  await field('From').fill('5 1/2');
  await field('To').fill('5');
  await tryThem().click();
  const problemOf = async (name: string) => {
    const ids = (await field(name).getAttribute('aria-describedby')) ?? '';
    return (await page.locator(`[id="${ids.split(' ').at(-1)}"]`).textContent()) ?? '';
  };
  expect(await problemOf('To')).toBe('To must be more than where the range begins, 5 1/2');
  expect(await problemOf('Step')).toBe('Step is empty: write a length, such as 12 mm or 1/2 in');
  expect(await field('From').getAttribute('aria-invalid')).toBe('false');
  expect(await told().count()).toBe(0);

  await vary.selectOption({ label: 'A list of wheels' });
  await field('Wheels').fill('17x9x5 1/2\n17x9');
  await field('Wheels').press('Control+Enter');
  expect(await problemOf('Wheels')).toMatch(/^line 2, "17x9": has 2 of 3 dimensions; write diameter x width/);
  await vary.selectOption({ label: 'Wheel 17 × 9: backspacing' });
  expect(await field('From').inputValue()).toBe('5 1/2');
  expect(await field('To').inputValue()).toBe('5');
});

it('tries a range until it is cancelled, and in whole: which fit, where the border is, and what fails beyond', async () => {
  const { page } = bench;
  await field('From').fill('5');
  await field('To').fill('5 1/2');
  await field('Step').fill('1/4');
  await field('Step').press('Enter');
  await page.getByRole('button', { name: 'Cancel', exact: true }).click();
  await page.getByText('Cancelled; nothing is known of these values.').waitFor(SOON);
  expect(await tryThem().evaluate((button) => button === document.activeElement)).toBe(true);
  expect(await field('Step').inputValue()).toBe('1/4');

  await tryThem().click();
  await told().waitFor(SOON);
  const words = (await told().getByRole('status').textContent()) ?? '';
  expect(words).toMatch(BORDER);
  const border = BORDER.exec(words);
  const [fits, fails] = (border ?? []).slice(1).map(inches);
  expect(fits).toBeGreaterThanOrEqual(5);
  expect(fails - fits).toBeCloseTo(1 / 64, 9);
  expect(fails).toBeLessThanOrEqual(5.5);
  const rows = await told().getByRole('row').allInnerTexts();
  expect(rows).toHaveLength(4);
  expect(rows[1]).toMatch(/^5 in\s+fits\s+.* has [\d.]+ in more than its target$/);
  expect(rows[3]).toMatch(/^5 1\/2 in\s+◣ tight\s+Wheel 17 × 9 ↔ .* is [\d.]+ in short of its target, at /);
});

it('is shown of the corner that it was made of alone, whether the sheet was closed meanwhile or not', async () => {
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
  await page.getByRole('button', { name: 'What will fit' }).click();
  await page.getByText('The corner has changed since Wheel 17 × 9: backspacing was tried.').waitFor(SOON);
  expect(await told().count()).toBe(0);
  await page.keyboard.press('Control+z');
  await told().waitFor(SOON);
});

/** "5 19/64". */
function inches(text: string): number {
  const [whole, fraction = '0/1'] = text.split(' ');
  const [over, under] = fraction.split('/').map(Number);
  return Number(whole) + over / under;
}
