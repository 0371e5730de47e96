import type { Locator } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { onWorkbench } from './onWorkbench.ts';

const bench = onWorkbench({ demo: 'gravelbeck' });

const chart = (against: 'travel' | 'steer') =>
  bench.page.getByRole('region', { name: `Clearance against ${against}` });
const plot = (against: 'travel' | 'steer') => chart(against).getByRole('img');
const travel = () => bench.page.getByRole('slider', { name: 'Travel', exact: true });
const travelMm = async () => Number(await travel().getAttribute('aria-valuenow'));
const row = (text: string) => bench.page.getByRole('option').filter({ hasText: text }).first();

/** A point in a chart, as a fraction of its width. */
async function place(against: 'travel' | 'steer', share: number) {
  const box = await plot(against).boundingBox();
  if (box === null) throw new Error('the chart is not drawn');
  return { x: box.x + share * box.width, y: box.y + box.height / 2 };
}

describe('a chart', () => {
  it('moves the corner while the pointer is over it, and keeps the pose after a press', async () => {
    const { page } = bench;
    const before = await travelMm();
    const far = await place('travel', 0.8);
    await page.mouse.move(far.x, far.y);
    await expect.poll(travelMm).not.toBe(before);
    const previewed = await travelMm();
    await page.mouse.move(5, 300);
    await expect.poll(travelMm).toBe(before);
    await page.mouse.move(far.x, far.y);
    await page.mouse.down();
    await page.mouse.up();
    await page.mouse.move(5, 300);
    await expect.poll(travelMm).toBe(previewed);
    const near = await place('travel', 0.3);
    await page.mouse.move(far.x, far.y);
    await page.mouse.down();
    await page.mouse.move(near.x, near.y, { steps: 4 });
    await page.mouse.up();
    await page.mouse.move(5, 300);
    await expect.poll(travelMm).toBeLessThan(previewed);
  });

  it('does not undo a pose set by keys while the pointer is over it', async () => {
    const { page } = bench;
    const far = await place('travel', 0.8);
    await page.mouse.move(far.x, far.y);
    await travel().focus();
    await page.keyboard.press('Home');
    const droop = await travelMm();
    await page.mouse.move(5, 300);
    await page.waitForTimeout(300);
    expect(await travelMm()).toBe(droop);
  });

  it('draws the proved band below its line', async () => {
    await row('Wheel 16 × 8 ↔ Tie rod').click();
    const band = chart('steer').locator('.chart-band');
    await expect.poll(() => band.count()).toBe(1);
    await expect.poll(() => band.getAttribute('d')).toMatch(/^M/);
    // The boxes of the paths, without stroke width.
    const foot = (path: Locator) =>
      path.evaluate((element) => {
        const { y, height } = (element as unknown as SVGGraphicsElement).getBBox();
        return y + height;
      });
    // Further down the screen is less clearance.
    expect(await foot(band)).toBeGreaterThan(await foot(chart('steer').locator('.chart-plot .line')));
  });

  it('keeps a pair while another is selected, and removes it', async () => {
    const named = () => chart('travel').locator('.chart-pair').allTextContents();
    await row('Wheel 16 × 8 ↔ Tie rod').click();
    await expect.poll(named).toHaveLength(1);
    const [kept] = await named();
    await chart('travel')
      .getByRole('button', { name: `Keep ${kept} on the charts` })
      .click();
    await row('Rotor 12 in ↔ Twin-piston caliper').click();
    await expect.poll(named).toEqual(['Rotor 12 in ↔ Twin-piston caliper', kept]);
    await chart('travel')
      .getByRole('button', { name: `Keep ${kept} on the charts` })
      .press('Enter');
    await expect.poll(named).toEqual(['Rotor 12 in ↔ Twin-piston caliper']);
  });
});
