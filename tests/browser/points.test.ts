import { beforeAll, describe, expect, it } from 'vitest';
import { wheelCorner } from '../design/fixtures.ts';
import { onWorkbench, swept } from './onWorkbench.ts';

const bench = onWorkbench({ corner: JSON.stringify(wheelCorner()), waitMs: 10_000 });

const field = (axis: string) => bench.page.getByLabel(`Hardpoints, upper joint, ${axis}`, { exact: true });
const dot = (name: string) => bench.page.locator(`.point-dot[title="${name}"]`);
const handle = (axis: string) =>
  bench.page.getByRole('spinbutton', { name: `Upper joint, ${axis}, in the view` });
const changes = () => bench.page.getByRole('button', { name: /^Changes/ }).textContent();
const middleOf = async (of: ReturnType<typeof handle>) => {
  const box = await of.boundingBox();
  if (box === null) throw new Error('it is not on screen');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};
/** Waits until a handle is at rest. */
const still = (of: ReturnType<typeof handle>) =>
  expect
    .poll(async () => {
      const before = await middleOf(of);
      await bench.page.waitForTimeout(100);
      const now = await middleOf(of);
      return Math.hypot(now.x - before.x, now.y - before.y);
    })
    .toBe(0);
/** Drags from the middle of a handle by so many px; then releases, if `release`. */
async function drag(of: ReturnType<typeof handle>, dx: number, dy: number, release = true): Promise<void> {
  const { page } = bench;
  const { x, y } = await middleOf(of);
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let n = 1; n <= 6; n++) await page.mouse.move(x + (dx * n) / 6, y + (dy * n) / 6);
  if (release) await page.mouse.up();
}

beforeAll(async () => {
  await bench.page.getByRole('button', { name: 'Points and suspension' }).click();
  // The sheet is loaded when it is first opened.
  await dot('Upper joint').waitFor();
});

describe('points of the suspension in the view', () => {
  it('are shown while their sheet is open; choosing one in the sheet or the view chooses it in both', async () => {
    const { page } = bench;
    expect(await page.locator('.point-dot').count()).toBe(11);
    await dot('Upper joint').click();
    expect(await dot('Upper joint').getAttribute('data-chosen')).toBe('true');
    expect(await page.locator('.bench-triple[data-chosen=true] legend').textContent()).toBe('Upper joint');
    await page.getByLabel('Hardpoints, lower joint, X', { exact: true }).focus();
    expect(await dot('Lower joint').getAttribute('data-chosen')).toBe('true');
    await field('Z').focus();
    expect(await handle('Z').getAttribute('aria-valuetext')).toBe('520 mm');
  });

  it('a drag along an axis is one change, and undo restores the point', async () => {
    const { page } = bench;
    const before = await page.getByRole('region', { name: 'This pose' }).textContent();
    // In the rear view Z is vertical on the screen.
    await page.getByRole('button', { name: 'Rear', exact: true }).click();
    await page.locator('[data-axis=X][data-unseen]').waitFor({ state: 'attached' });
    await still(handle('Z'));
    await drag(handle('Z'), 0, -12, false);
    const held = Number.parseFloat(await field('Z').inputValue());
    expect(held).toBeGreaterThan(521);
    expect(await page.getByTestId('point-label').textContent()).toContain(`Z ${held} mm`);
    // Longer than the interval in which consecutive steps merge.
    await page.waitForTimeout(1500);
    const { x, y } = await middleOf(handle('Z'));
    await page.mouse.move(x, y - 12);
    await expect.poll(async () => Number.parseFloat(await field('Z').inputValue())).toBeGreaterThan(held);
    await page.mouse.up();
    expect(await field('X').inputValue()).toBe('−20 mm');
    expect(await field('Y').inputValue()).toBe('680 mm');
    expect(await changes()).toBe('Changes 1');
    await expect
      .poll(() => page.getByRole('region', { name: 'This pose' }).textContent(), { timeout: 60_000 })
      .not.toBe(before);
    await swept(page);
    await page.keyboard.press('Control+z');
    expect(await field('Z').inputValue()).toBe('520 mm');
  });

  it('a drag in the plane most square to the view moves two coordinates and leaves the view', async () => {
    const { page } = bench;
    const at = await middleOf(dot('Lower joint'));
    await drag(page.locator('.point-plane'), 15, -10);
    expect(await field('X').inputValue()).toBe('−20 mm');
    const [y, z] = [await field('Y').inputValue(), await field('Z').inputValue()].map(Number.parseFloat);
    expect(Math.abs(y - 680)).toBeGreaterThan(1);
    expect(z).toBeGreaterThan(521);
    await swept(page);
    const now = await middleOf(dot('Lower joint'));
    expect(Math.hypot(now.x - at.x, now.y - at.y)).toBeLessThan(0.5);
    await page.keyboard.press('Control+z');
    expect(await field('Z').inputValue()).toBe('520 mm');
  });

  it('Escape ends a drag and restores the point', async () => {
    const { page } = bench;
    await drag(handle('Z'), 0, -20, false);
    expect(await field('Z').inputValue()).not.toBe('520 mm');
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await field('Z').inputValue()).toBe('520 mm');
  });

  it('arrow keys move a point', async () => {
    const { page } = bench;
    await handle('Y').focus();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Shift+ArrowDown');
    expect(await field('Y').inputValue()).toBe('675.5 mm');
    expect(await handle('Y').getAttribute('aria-valuetext')).toBe('675.5 mm');
    expect(await handle('Y').getAttribute('aria-valuenow')).toBe('675.5');
    await page.keyboard.press('Control+z');
    expect(await field('Y').inputValue()).toBe('680 mm');
  });

  it('a point can be moved at ride height only', async () => {
    const { page } = bench;
    await page
      .getByRole('slider', { name: /travel/i })
      .first()
      .focus();
    await page.keyboard.press('Shift+ArrowUp');
    await handle('Z').waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Go to ride height to move upper joint' }).click();
    await handle('Z').waitFor();
  });

  it('are hidden when their sheet closes', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'Parts list' }).click();
    await expect.poll(() => page.locator('.point-dot').count()).toBe(0);
  });
});
