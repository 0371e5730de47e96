import { describe, expect, it } from 'vitest';
import { smallCorner } from '../design/fixtures.ts';
import { onWorkbench, swept } from './onWorkbench.ts';

const bench = onWorkbench({ corner: JSON.stringify(smallCorner()), waitMs: 8_000 });

const field = (name: string) => bench.page.getByLabel(name, { exact: true });

describe('bolts in the part sheet', () => {
  it('are added, listed among the parts, and checked against the others', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'Add part' }).click();
    await page.getByRole('button', { name: 'Bolts', exact: true }).click();
    const listed = page.locator('.parts-list .part-name').filter({ hasText: 'Bolts' });
    await listed.waitFor({ state: 'attached', timeout: 60_000 });
    await swept(page);
    const pair = page.getByRole('option').filter({ hasText: /Bolts ↔|↔ Bolts/ });
    await expect.poll(() => pair.count(), { timeout: 60_000 }).toBeGreaterThan(0);
  });

  it('highlight a typed dimension in the sketch, and list the known sizes if one is wrong', async () => {
    const { page } = bench;
    const length = field('Length');
    await length.fill('2 1/2 in');
    await page.keyboard.press('Enter');
    await length.focus();
    await page.locator('.sketch-lit[data-field=length]').waitFor({ timeout: 60_000 });
    await field('Size').fill('M13');
    await page.keyboard.press('Enter');
    await expect
      .poll(() => page.getByRole('alert').first().textContent(), { timeout: 60_000 })
      .toContain('M10, M12, M14');
    await field('Size').fill('1/2-20');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.getByRole('alert').count(), { timeout: 60_000 }).toBe(0);
  });
});
