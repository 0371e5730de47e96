import { describe, expect, it } from 'vitest';
import { smallCorner } from '../design/fixtures.ts';
import { onWorkbench, swept, toPartsList } from './onWorkbench.ts';

const bench = onWorkbench({ corner: JSON.stringify(smallCorner()), waitMs: 8_000 });

const field = (name: string) => bench.page.getByLabel(name, { exact: true });
const alert = () => bench.page.getByRole('alert');
const isFocused = (name: string) => field(name).evaluate((input) => input === document.activeElement);
/** The listed least gap of a pair; undefined while there is none. */
async function gap(one: string, other: string): Promise<string | undefined> {
  const row = bench.page
    .getByRole('option')
    .filter({ hasText: new RegExp(`${one} ↔ ${other}|${other} ↔ ${one}`) })
    .first();
  if ((await row.count()) === 0) return undefined;
  return (await row.locator('.pair-gap').textContent()) ?? undefined;
}
async function selectPart(name: string): Promise<void> {
  await toPartsList(bench.page);
  await bench.page
    .locator('.parts-list')
    .getByRole('button', { name: new RegExp(`^${name}`) })
    .first()
    .click();
}

/** The number of assumed values. */
const count = async () =>
  Number.parseInt((await bench.page.getByRole('button', { name: /^\d+ assumed$/ }).textContent()) ?? '', 10);

describe('the part sheet', () => {
  it('takes a dimension as typed, updates the clearance, and undoes it by keyboard', async () => {
    const { page } = bench;
    const before = await gap('hub housing', 'caliper');
    expect(before).toMatch(/^\d/);
    await selectPart('caliper');
    const foot = field('Bracket, inner radius');
    expect(await foot.inputValue()).toBe('74 mm');
    await foot.fill('3 in ±1/32');
    await page.keyboard.press('Enter');
    // A shorter bracket ends further from the bearing housing.
    await expect
      .poll(async () => Number(await gap('hub housing', 'caliper')), { timeout: 60_000 })
      .toBeGreaterThan(Number(before));
    expect(await foot.inputValue()).toBe('3 in ±1/32');
    expect(await isFocused('Bracket, inner radius')).toBe(true);
    await page.getByRole('button', { name: 'Undo caliper, bracket, inner radius: 3 in ±1/32' }).waitFor();
    await page.keyboard.press('Control+z');
    expect(await foot.inputValue()).toBe('74 mm');
    await expect.poll(() => gap('hub housing', 'caliper'), { timeout: 60_000 }).toBe(before);
    await page.keyboard.press('Control+Shift+Z');
    expect(await foot.inputValue()).toBe('3 in ±1/32');
    await page.keyboard.press('Control+z');
    await swept(page);
  });

  it('keeps a wrong text in its field with its problem, and shows the last valid corner', async () => {
    const { page } = bench;
    const before = await gap('caliper', 'upright');
    const length = field('Body, length');
    await length.fill('twelve furlongs');
    await page.keyboard.press('Enter');
    await alert().first().waitFor();
    expect(await alert().allTextContents()).toEqual([
      expect.stringContaining('"twelve furlongs" is not a length'),
    ]);
    expect(await length.inputValue()).toBe('twelve furlongs');
    expect(await length.getAttribute('aria-invalid')).toBe('true');
    expect(await page.getByRole('status').allTextContents()).toContainEqual(
      expect.stringContaining('The last valid corner is shown'),
    );
    expect(await gap('caliper', 'upright')).toBe(before);
    await length.fill('190 mm');
    await page.keyboard.press('Enter');
    await alert().first().waitFor({ state: 'detached' });
    expect(await length.getAttribute('aria-invalid')).toBe('false');
  });

  it('reverts the text on Escape', async () => {
    const { page } = bench;
    const length = field('Body, length');
    await length.fill('12 in');
    await page.keyboard.press('Escape');
    expect(await length.inputValue()).toBe('190 mm');
  });

  it('leaves Ctrl+Z to the field while its text is not committed', async () => {
    const { page } = bench;
    const changes = await page.getByRole('button', { name: /^Changes/ }).textContent();
    await field('Body, length').pressSequentially('9');
    await page.keyboard.press('Control+z');
    expect(await page.getByRole('button', { name: /^Changes/ }).textContent()).toBe(changes);
    await page.keyboard.press('Escape');
  });

  it('turns the caliper by arrow keys as one change, and updates a pair that never moves', async () => {
    const { page } = bench;
    await swept(page);
    const before = await gap('hub housing', 'caliper');
    expect(before).toMatch(/\d/);
    await field('Clocking').focus();
    for (let n = 0; n < 10; n++) await page.keyboard.press('ArrowUp');
    await expect.poll(() => field('Clocking').inputValue()).toBe('100°');
    await expect.poll(() => gap('hub housing', 'caliper'), { timeout: 60_000 }).not.toBe(before);
    await swept(page);
    expect(await gap('hub housing', 'caliper')).not.toBe(before);
    expect(await isFocused('Clocking')).toBe(true);
    await page.keyboard.press('Control+z');
    await expect.poll(() => field('Clocking').inputValue()).toBe('90°');
    await page.keyboard.press('Shift+ArrowDown');
    await expect.poll(() => field('Clocking').inputValue()).toBe('80°');
    await page.keyboard.press('Control+z');
    await expect.poll(() => gap('hub housing', 'caliper'), { timeout: 60_000 }).toBe(before);
  });

  it('steps a length in the unit in which it was typed', async () => {
    const { page } = bench;
    await selectPart('rotor');
    await field('Height').focus();
    await page.keyboard.press('ArrowDown');
    expect(await field('Height').inputValue()).toBe('1 13/16" ±1/64');
    expect(await page.locator('.sketch-lit').getAttribute('data-field')).toBe('height');
    expect(await page.locator('.sketch-lit text').textContent()).toBe('1 13/16" ±1/64');
    // The view highlights it on the part as well.
    await expect.poll(() => page.getByTestId('lit-label').textContent()).toBe('1 13/16" ±1/64');
    await expect.poll(() => page.getByTestId('lit-line').getAttribute('d')).toMatch(/^M\d/);
    await page.getByLabel('Label', { exact: true }).focus();
    await expect.poll(() => page.getByTestId('lit-line').getAttribute('d')).toBe('');
    await field('Height').focus();
    await page.keyboard.press('Control+z');
    expect(await field('Height').inputValue()).toBe('1 7/8" ±1/64');
  });

  it('confirms assumed values in the sheet and in the list of assumed values', async () => {
    const { page } = bench;
    const before = await count();
    expect(await field('Hat thickness').inputValue()).toBe('');
    await page.getByRole('button', { name: 'Confirm Hat thickness, assumed 7 mm' }).click();
    expect(await field('Hat thickness').inputValue()).toBe('7 mm');
    await expect.poll(count, { timeout: 10_000 }).toBe(before - 1);
    await page.getByRole('button', { name: /^\d+ assumed$/ }).click();
    await page.getByRole('button', { name: 'Confirm Lip, assumed 12.7 mm' }).click();
    await expect.poll(count, { timeout: 10_000 }).toBe(before - 2);
    expect(await field('Lip').inputValue()).toBe('12.7 mm');
  });

  it('adds, renames, copies, moves and removes a part', async () => {
    const { page } = bench;
    const listed = (name: string) => page.locator('.parts-list .part-name').filter({ hasText: name });
    const before = await count();
    await page.getByRole('button', { name: 'Add part' }).click();
    expect(await page.getByRole('button', { name: /^Wheel a corner already has one/ }).isDisabled()).toBe(
      true,
    );
    await page.getByRole('button', { name: 'Box', exact: true }).click();
    await listed('Box').waitFor({ state: 'attached', timeout: 60_000 });
    // Guesses: centre and size. Defaults: allowance, carrier and three angles.
    await expect.poll(count, { timeout: 10_000 }).toBe(before + 7);
    await page.getByRole('button', { name: 'Confirm Size, guess 100 mm, 50 mm, 50 mm' }).click();
    await expect.poll(count, { timeout: 10_000 }).toBe(before + 6);
    // A zero angle still has a visible tick.
    await field('Roll').focus();
    const tick = page.locator('.sketch-lit[data-field=rollDeg] path');
    const { height } = (await tick.boundingBox()) ?? { height: 0 };
    expect(height).toBeGreaterThan(5);
    await expect.poll(() => page.getByTestId('lit-line').getAttribute('d')).toMatch(/^M\d/);
    await field('Centre, Z').fill('8 in');
    await page.keyboard.press('Enter');
    await field('Label').fill('Battery');
    await page.keyboard.press('Enter');
    await listed('Battery').waitFor({ state: 'attached', timeout: 60_000 });
    await field('Short name').fill('rotor');
    await page.keyboard.press('Enter');
    expect(await alert().first().textContent()).toContain('give each part its own');
    expect(await field('Short name').inputValue()).toBe('rotor');
    await field('Short name').fill('battery');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Undo Battery: short name battery' }).waitFor();
    await field('Carrier').selectOption('lowerArm');
    await page
      .locator('.parts-list [aria-label="Lower arm"]')
      .getByText('Battery')
      .waitFor({ state: 'attached', timeout: 60_000 });
    await page.getByRole('button', { name: 'Copy', exact: true }).click();
    await listed('Battery, copy').waitFor({ state: 'attached', timeout: 60_000 });
    await page.getByRole('button', { name: 'Remove', exact: true }).click();
    await expect.poll(() => listed('Battery').count(), { timeout: 60_000 }).toBe(1);
    await selectPart('rotor');
    await page.getByRole('button', { name: 'Remove', exact: true }).click();
    expect(await alert().first().textContent()).toContain('needs a part of kind "rotor"');
  });

  it('adds a group to a part and removes it', async () => {
    const { page } = bench;
    await selectPart('upperArm');
    await page.getByRole('button', { name: 'Add gusset' }).click();
    expect(await field('Gusset, thickness').inputValue()).toBe('5 mm');
    await page.getByRole('button', { name: 'Remove gusset' }).click();
    await page.getByRole('button', { name: 'Add gusset' }).waitFor();
  });

  it('moves a hardpoint', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'Points and suspension' }).click();
    const before = await page.getByRole('region', { name: 'This pose' }).textContent();
    const z = field('Hardpoints, upper joint, Z');
    await z.focus();
    await page.keyboard.press('Shift+ArrowUp');
    expect(await z.inputValue()).toBe('525 mm');
    await expect
      .poll(() => page.getByRole('region', { name: 'This pose' }).textContent(), { timeout: 60_000 })
      .not.toBe(before);
  });

  it('goes back to any change in the list', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: /^Changes/ }).click();
    const list = page.getByRole('list', { name: 'Changes, the newest first' });
    expect(await list.getByRole('button').first().textContent()).toContain(
      'Suspension, hardpoints, upper joint, Z: 525 mm',
    );
    await list.getByRole('button', { name: /^Opened bench/ }).click();
    await page.keyboard.press('Escape');
    expect(await field('Hardpoints, upper joint, Z').inputValue()).toBe('520 mm');
    await expect.poll(() => page.getByRole('button', { name: 'Undo', exact: true }).isDisabled()).toBe(true);
  });

  it('sets the target and the zone of a pair, and the name, note and unit of the corner', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'Corner and pair rules' }).click();
    const target = field('Rule 1, target');
    expect(await target.inputValue()).toBe('3 mm');
    await page.getByRole('button', { name: 'Add rule' }).click();
    await field('Rule 2, first part').selectOption('rotor');
    await field('Rule 2, second part').selectOption('caliper');
    await field('Rule 2, target').fill('1/4 in');
    await page.keyboard.press('Enter');
    const row = bench.page
      .getByRole('option')
      .filter({ hasText: /rotor ↔ caliper|caliper ↔ rotor/ })
      .first();
    // 3 mm of rotorGap and faceGap against a target of 6.35 mm.
    await expect.poll(() => row.textContent(), { timeout: 60_000 }).toContain('tight');
    await field('Rule 2, second part').selectOption('rotor');
    await alert().first().waitFor();
    expect(await alert().first().textContent()).toContain('names the same part twice');
    await page.keyboard.press('Control+z');
    await alert().first().waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Add zone' }).last().click();
    await field('Rule 2, shape of the zone').selectOption('slab');
    expect(await field('Rule 2, zone, thickness').inputValue()).toBe('20 mm');
    await page.getByRole('button', { name: 'Remove rule 2' }).click();
    expect(await field('Rule 2, target').count()).toBe(0);
    await field('Name').fill('Bench corner two');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Bench corner two, left side' }).waitFor({ timeout: 60_000 });
    const note = field('Note');
    await note.fill('Five-stud hub.');
    await page.keyboard.press('Enter');
    await page.keyboard.type('Bore turned by hand.');
    expect(await note.inputValue()).toBe('Five-stud hub.\nBore turned by hand.');
    await page.keyboard.press('Control+z');
    expect(await field('Name').inputValue()).toBe('Bench corner two');
    await note.fill('Five-stud hub.\nBore turned by hand.');
    await page.keyboard.press('Control+Enter');
    await page
      .getByRole('button', { name: 'Undo Corner, note: Five-stud hub. Bore turned by hand.' })
      .waitFor();
    expect(await isFocused('Note')).toBe(true);
    await note.fill('Neither.');
    await page.keyboard.press('Escape');
    expect(await note.inputValue()).toBe('Five-stud hub.\nBore turned by hand.');
    await note.fill('Five-stud hub.\n\nMeasured twice.');
    await page.keyboard.press('Tab');
    await page.getByRole('button', { name: 'Undo Corner, note: Five-stud hub. Measured twice.' }).waitFor();
    expect(await note.inputValue()).toBe('Five-stud hub.\n\nMeasured twice.');
    expect(await field('Name').inputValue()).toBe('Bench corner two');
    await field('Unit').selectOption('in');
    await expect.poll(() => field('Unit').inputValue()).toBe('in');
    expect(await field('Rule 1, target').inputValue()).toBe('3 mm');
    await page.getByRole('button', { name: 'Points and suspension' }).click();
  });
});
