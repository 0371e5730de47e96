import type { Locator } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { onWorkbench } from './onWorkbench.ts';

const bench = onWorkbench({ demo: 'saltpan' });

const chart = (against: 'travel' | 'steer') =>
  bench.page.getByRole('region', { name: `Clearance against ${against}` });
const plot = (against: 'travel' | 'steer') => chart(against).getByRole('img');
const travel = () => bench.page.getByRole('slider', { name: 'Travel', exact: true });
const travelMm = async () => Number(await travel().getAttribute('aria-valuenow'));
const row = (text: string) => bench.page.getByRole('option').filter({ hasText: text }).first();

/** A place in a chart, by its share of the width. */
async function place(against: 'travel' | 'steer', share: number) {
  const box = await plot(against).boundingBox();
  if (box === null) throw new Error('the chart is not drawn');
  return { x: box.x + share * box.width, y: box.y + box.height / 2 };
}

describe('a chart', () => {
  it('poses the corner for a look under the pointer, and for good when pressed', async () => {
    const { page } = bench;
    const before = await travelMm();
    const far = await place('travel', 0.8);
    await page.mouse.move(far.x, far.y);
    await expect.poll(travelMm).not.toBe(before);
    const looked = await travelMm();
    await page.mouse.move(5, 300);
    await expect.poll(travelMm).toBe(before);
    await page.mouse.move(far.x, far.y);
    await page.mouse.down();
    await page.mouse.up();
    await page.mouse.move(5, 300);
    await expect.poll(travelMm).toBe(looked);
    const near = await place('travel', 0.3);
    await page.mouse.move(far.x, far.y);
    await page.mouse.down();
    await page.mouse.move(near.x, near.y, { steps: 4 });
    await page.mouse.up();
    await page.mouse.move(5, 300);
    await expect.poll(travelMm).toBeLessThan(looked);
  });

  it('does not take the corner back from where keys put it during a look', async () => {
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

  it('draws the band that is proved between the steps, below its line', async () => {
    await row('Wheel 17 × 9 ↔ Tie rod').click();
    const band = chart('steer').locator('.chart-band');
    await expect.poll(() => band.count()).toBe(1);
    await expect.poll(() => band.getAttribute('d')).toMatch(/^M/);
    // Of the paths, without the width of their strokes.
    const foot = (path: Locator) =>
      path.evaluate((element) => {
        const { y, height } = (element as unknown as SVGGraphicsElement).getBBox();
        return y + height;
      });
    // Lower on the screen is less clearance.
    expect(await foot(band)).toBeGreaterThan(await foot(chart('steer').locator('.chart-plot .line')));
  });

  it('keeps a pair while another is in hand, and lets it go', async () => {
    const named = () => chart('travel').locator('.chart-pair').allTextContents();
    await row('Wheel 17 × 9 ↔ Tie rod').click();
    await expect.poll(named).toHaveLength(1);
    const [kept] = await named();
    await chart('travel')
      .getByRole('button', { name: `Keep ${kept} on the charts` })
      .click();
    await row('Rotor 13 in ↔ Donor caliper').click();
    await expect.poll(named).toEqual(['Rotor 13 in ↔ Donor caliper', kept]);
    await chart('travel')
      .getByRole('button', { name: `Keep ${kept} on the charts` })
      .press('Enter');
    await expect.poll(named).toEqual(['Rotor 13 in ↔ Donor caliper']);
  });
});
