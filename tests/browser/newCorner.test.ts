import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { wheelCorner } from '../design/fixtures.ts';
import { chooseFile, measured, onWorkbench, swept } from './onWorkbench.ts';
import { tabTo } from './tabTo.ts';

const FIRST = JSON.stringify({ ...wheelCorner(), name: 'First' });
const bench = onWorkbench({ corner: FIRST, waitMs: 10_000 });
/** Messages of the page's dialogs, and the answer to them. */
let messages: string[] = [];
let answer = true;

const sheet = () => bench.page.getByRole('dialog', { name: 'New corner' });
const field = (name: string) => sheet().getByRole('textbox', { name, exact: true });
const isFocused = (name: string) => field(name).evaluate((input) => input === document.activeElement);
const heading = (name: string) => bench.page.getByRole('heading', { level: 1, name });

beforeAll(() => {
  bench.page.on('dialog', async (dialog) => {
    messages.push(dialog.message());
    await (answer ? dialog.accept() : dialog.dismiss());
  });
});

/** Opens the first corner again, with an empty sheet. */
beforeEach(async () => {
  const { page } = bench;
  answer = true;
  if ((await sheet().count()) > 0) {
    const clear = sheet().getByRole('button', { name: 'Clear all' });
    // Disabled while the sheet is empty.
    if (await clear.isEnabled()) await clear.click();
    await page.keyboard.press('Escape');
    await sheet().waitFor({ state: 'detached' });
  }
  if ((await heading('First, left side').count()) === 0) {
    await chooseFile(page, 'first.corner.json', FIRST);
    await heading('First, left side').waitFor({ timeout: 60_000 });
  }
  messages = [];
});

describe('a new corner', () => {
  it('is created by mouse, swept at once, and marked as not saved', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'New corner' }).click();
    await field('Name').fill('Lathe shed special');
    await sheet().getByLabel('Side', { exact: true }).selectOption('right');
    await sheet().getByLabel('Unit of the file').selectOption('in');
    await field('Rim width').fill('9');
    await field('Rotor diameter').fill('330 mm');
    expect(await page.locator('.start .sketch-lit').getAttribute('data-field')).toBe('rotorDiameter');
    expect(await page.locator('.start .sketch-lit text').textContent()).toBe('330 mm');
    await field('Kingpin length').fill('11 1/4 ±1/32');
    await sheet().getByRole('button', { name: 'Create corner' }).click();
    await heading('Lathe shed special, right side').waitFor({ timeout: 60_000 });
    await swept(page);
    expect(messages).toEqual([]);
    await sheet().waitFor({ state: 'detached' });
    expect(await page.getByRole('option').count()).toBeGreaterThan(5);
    await page.getByRole('button', { name: 'Save • changes' }).waitFor();
    // Typed values are in the part sheet as typed; the others are listed as assumed.
    await page
      .locator('.parts-list')
      .getByRole('button', { name: /^Brake rotor/ })
      .first()
      .click();
    expect(await page.getByLabel('Diameter', { exact: true }).inputValue()).toBe('330 mm');
    expect(await page.getByRole('button', { name: /^Confirm Diameter/ }).count()).toBe(0);
    await page.getByRole('button', { name: /^Confirm Hat diameter, guess/ }).click();
    await page.getByRole('button', { name: 'Undo Brake rotor, hat diameter: confirmed' }).click();
    await page.getByRole('button', { name: /^Confirm Hat diameter, guess/ }).waitFor();
    // The sheet is empty for the next one.
    await page.getByRole('button', { name: 'New corner' }).click();
    expect(await field('Kingpin length').inputValue()).toBe('');
  });

  it('is created by keyboard alone', async () => {
    const { page } = bench;
    await tabTo(page.getByRole('button', { name: 'New corner' }));
    await page.keyboard.press('Enter');
    await sheet().waitFor();
    await tabTo(field('Name'));
    await page.keyboard.type('By keys alone, left');
    await tabTo(field('Rim diameter code'));
    await page.keyboard.type('15');
    await tabTo(field('Bump'));
    await page.keyboard.type('2');
    await page.keyboard.press('ArrowUp');
    expect(await field('Bump').inputValue()).toBe('2.5');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('2 1/4 in');
    await tabTo(sheet().getByRole('button', { name: 'Create corner' }));
    await page.keyboard.press('Enter');
    await heading('By keys alone, left').waitFor({ timeout: 60_000 });
    await measured(page);
  });

  it('shows a problem beside its field, moves the focus there, and creates nothing', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'New corner' }).click();
    await field('Bolt circle').fill('seven');
    await field('Kingpin length').fill('2 in');
    await sheet().getByRole('button', { name: 'Create corner' }).click();
    expect(await isFocused('Bolt circle')).toBe(true);
    expect(await field('Bolt circle').getAttribute('aria-invalid')).toBe('true');
    const problems = (await sheet().getByRole('alert').allTextContents()).join('\n');
    expect(problems).toContain('"seven" is not a length');
    expect(problems).toContain('Kingpin length must be at least 100 mm, and is 50.8 mm');
    expect(await heading('First, left side').count()).toBe(1);
    expect(await field('Bolt circle').inputValue()).toBe('seven');
  });

  it('keeps the typed text when it closes or the page reloads, and asks before it clears it', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'New corner' }).click();
    await field('Kingpin length').fill('11 1/4 ±1/32');
    await page.keyboard.press('Escape');
    await sheet().waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'New corner' }).click();
    expect(await field('Kingpin length').inputValue()).toBe('11 1/4 ±1/32');
    await page.reload();
    await page.getByRole('button', { name: 'New corner' }).click({ timeout: 60_000 });
    expect(await field('Kingpin length').inputValue()).toBe('11 1/4 ±1/32');
    answer = false;
    await sheet().getByRole('button', { name: 'Clear all' }).click();
    expect(await field('Kingpin length').inputValue()).toBe('11 1/4 ±1/32');
    answer = true;
    await sheet().getByRole('button', { name: 'Clear all' }).click();
    expect(await field('Kingpin length').inputValue()).toBe('');
    expect(messages).toEqual(Array(2).fill('Clear every field of the new corner?'));
  });

  it('asks before it replaces unsaved work, and keeps both if the answer is no', async () => {
    const { page } = bench;
    await page
      .locator('.parts-list')
      .getByRole('button', { name: /^rotor/ })
      .first()
      .click();
    await page.getByLabel('Diameter', { exact: true }).fill('260 mm');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'New corner' }).click();
    await field('Bump').fill('50 mm');
    answer = false;
    await sheet().getByRole('button', { name: 'Create corner' }).click();
    await expect.poll(() => messages).toEqual([expect.stringContaining('are not saved')]);
    expect(await field('Bump').inputValue()).toBe('50 mm');
    expect(await heading('First, left side').count()).toBe(1);
    answer = true;
    await sheet().getByRole('button', { name: 'Create corner' }).click();
    await heading('New corner, front left').waitFor({ timeout: 60_000 });
  });

  it('keeps its named changes after a reload', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'New corner' }).click();
    await field('Name').fill('Kept special');
    await sheet().getByLabel('Unit of the file').selectOption('in');
    await field('Kingpin length').fill('11');
    await sheet().getByLabel('Unit of the file').selectOption('mm');
    expect(await field('Kingpin length').inputValue()).toBe('11 in');
    await field('Rim width').fill('9 in');
    await sheet().getByRole('button', { name: 'Create corner' }).click();
    await heading('Kept special, left side').waitFor({ timeout: 60_000 });
    await page
      .locator('.parts-list')
      .getByRole('button', { name: /^Wheel/ })
      .first()
      .click();
    const width = page.getByLabel('Width', { exact: true });
    for (const text of ['9 1/4 in', '9 1/2 in']) {
      await width.fill(text);
      await width.press('Enter');
    }
    await page.getByRole('button', { name: 'Undo Wheel, width: 9 1/2 in' }).waitFor();
    await page.waitForTimeout(1000);
    await page.reload();
    await heading('Kept special, left side').waitFor({ timeout: 60_000 });
    await page.getByRole('button', { name: 'Undo Wheel, width: 9 1/2 in' }).click();
    await page.getByRole('button', { name: 'Undo Wheel, width: 9 1/4 in' }).click();
    await page.getByRole('button', { name: 'Redo Wheel, width: 9 1/4 in' }).waitFor();
    await page.getByRole('button', { name: 'Changes', exact: true }).click();
    const list = page.getByRole('list', { name: 'Changes, the newest first' });
    expect(await list.getByRole('button').last().textContent()).toContain('Created Kept special');
    await page.getByRole('button', { name: 'Save • changes' }).waitFor();
  });
});
