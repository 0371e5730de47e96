import { describe, expect, it } from 'vitest';
import { measured, onWorkbench } from './onWorkbench.ts';
import { tabTo } from './tabTo.ts';

const bench = onWorkbench({ demo: 'gravelbeck', picture: 'drawn', until: measured });

const pairs = () => bench.page.getByRole('listbox', { name: 'Pairs by margin' });
const button = (name: string) => bench.page.getByRole('button', { name, exact: true });
const region = () => bench.page.getByRole('region', { name: 'Section' });
const field = (name: string) => bench.page.getByLabel(name, { exact: true });
const slide = () => bench.page.getByRole('slider', { name: 'Offset of the section' });
const canvas = () => bench.page.getByLabel('The corner in three dimensions').locator('canvas');
const picture = () => canvas().screenshot();
const names = () => bench.page.locator('[data-testid=cut-name]:visible').allTextContents();

describe('a section', () => {
  it('goes through the tight spot by mouse, and names both parts beside the dimension', async () => {
    const { page } = bench;
    await pairs().getByRole('option').filter({ hasText: 'Wheel 16 × 8 ↔ Tie rod' }).last().click();
    await page.locator('[data-testid=dimension]:not([data-stale])').waitFor();
    await button('Section').click();
    await region().waitFor();
    expect(await button('Gap').getAttribute('aria-pressed')).toBe('true');
    await expect.poll(names, { timeout: 15_000 }).toEqual(['Wheel 16 × 8', 'Tie rod']);
    expect(await page.locator('[data-testid=dimension]:visible').textContent()).toMatch(/^\d/);
    expect(await region().textContent()).toContain('fixed in the vehicle');
  });

  it('names no parts and changes the picture when it is moved off the gap', async () => {
    const { page } = bench;
    const before = await picture();
    await field('Offset').fill('1/2 in');
    await page.keyboard.press('Enter');
    expect(await slide().getAttribute('aria-valuetext')).toBe('12.7 mm');
    await expect.poll(names).toEqual([]);
    await expect.poll(async () => before.equals(await picture()), { timeout: 15_000 }).toBe(false);
    await field('Offset').fill('0');
    await page.keyboard.press('Enter');
    await expect.poll(names, { timeout: 15_000 }).toHaveLength(2);
  });

  it('keeps a wrong offset in its field and shows the problem', async () => {
    const { page } = bench;
    const input = field('Offset');
    await input.fill('5 furlongs');
    await page.keyboard.press('Enter');
    expect(await input.inputValue()).toBe('5 furlongs');
    expect(await input.getAttribute('aria-invalid')).toBe('true');
    expect(await page.getByRole('alert').textContent()).toContain('"furlongs" is not a unit');
    await page.keyboard.press('Escape');
    expect(await input.inputValue()).toBe('0');
  });

  it('is dragged by its handle in the view', async () => {
    const { page } = bench;
    await button('Inboard').click();
    const handle = page.locator('[data-testid=section-handle]:visible');
    // Wait until the view is at rest.
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
    await region().waitFor({ state: 'detached' });
  });

  it('follows the selected pair', async () => {
    await button('Section').click();
    await pairs().getByRole('option').filter({ hasText: 'Wheel 16 × 8 ↔ Twin-piston caliper' }).click();
    await expect
      .poll(() => region().textContent(), { timeout: 15_000 })
      .toContain('Twin-piston caliper: moves with both parts');
    await expect.poll(names, { timeout: 15_000 }).toEqual(['Wheel 16 × 8', 'Twin-piston caliper']);
    await button('Section').click();
  });

  it('lets a press through where it has cut parts away', async () => {
    const { page } = bench;
    await button('All pairs').click();
    await button('Section').click();
    await button('Across').click();
    const chosen = page.locator('.part[data-chosen=true] .part-name span:first-child');
    const pressed = async (depth: string) => {
      await field('Depth').fill(depth);
      await page.keyboard.press('Enter');
      await button('Outboard').click();
      await page.waitForTimeout(1500);
      const box = await canvas().boundingBox();
      if (box === null) throw new Error('there is no picture');
      // In the middle of the wheel, below the bars: hub and spokes, or the parts behind them once they are cut away.
      const bars = await page.locator('.viewer-head').boundingBox();
      const top = (bars?.y ?? 0) + (bars?.height ?? 0) - box.y;
      await canvas().click({ position: { x: box.width / 2, y: (top + box.height) / 2 } });
      return await chosen.allTextContents();
    };
    const whole = await pressed('300');
    const cut = await pressed('-260');
    expect(whole).toContain('Five-stud hub');
    expect(cut).not.toEqual(whole);
    await button('Section').click();
  });

  it('goes through the tight spot by keyboard alone', async () => {
    const { page } = bench;
    await pairs().focus();
    const chosen = pairs().getByRole('option', { selected: true });
    await page.keyboard.press('Home');
    for (let presses = 0; presses < 10; presses++) {
      if ((await chosen.locator('.pair-name').textContent()) === 'Wheel 16 × 8 ↔ Tie rod') break;
      await page.keyboard.press('ArrowDown');
    }
    await page.locator('[data-testid=dimension]:not([data-stale])').waitFor();
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await tabTo(button('Section'));
    await page.keyboard.press('Enter');
    await expect.poll(names, { timeout: 15_000 }).toEqual(['Wheel 16 × 8', 'Tie rod']);
    await tabTo(slide());
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    expect(await slide().getAttribute('aria-valuetext')).toBe('11 mm');
    await page.keyboard.press('0');
    await tabTo(field('About the gap'));
    await page.keyboard.press('Shift+ArrowUp');
    expect(await field('About the gap').inputValue()).toBe('10°');
    // A plane turned about the gap still contains it.
    await expect.poll(names, { timeout: 15_000 }).toHaveLength(2);
  });

  it('follows the gap of a changed corner at the same pose, else is marked as before the last change', async () => {
    const { page } = bench;
    const typed = async (text: string) => {
      await field('Tube diameter').fill(text);
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
    await expect.poll(names, { timeout: 15_000 }).toEqual(['Wheel 16 × 8', 'Tie rod']);
    expect(await region().textContent()).not.toContain('before the last change');
    await page.getByRole('slider', { name: 'Travel', exact: true }).focus();
    await page.keyboard.press('End');
    await typed('1 1/16 in');
    await expect.poll(() => region().textContent(), { timeout: 60_000 }).toContain('before the last change');
    await expect.poll(names, { timeout: 15_000 }).toEqual([]);
  });

  it('shows that a cut has failed and does not retry by itself', async () => {
    const requests: string[] = [];
    const page = await bench.open((fresh) =>
      fresh.route(/cutWorker/, (route) => {
        requests.push(route.request().url());
        return route.abort();
      }),
    );
    await page.getByRole('button', { name: 'Section', exact: true }).click();
    const strip = page.getByRole('region', { name: 'Section' });
    await expect.poll(() => strip.textContent(), { timeout: 15_000 }).toContain('cannot be drawn');
    await page.waitForTimeout(1500);
    expect(requests).toHaveLength(1);
    await page.context().close();
  });
});
