import type { Download, Page } from 'playwright-core';

/**
 * Saves the clearance report as HTML by its button. `studies`: whether the studies that go into it are awaited, or left out
 * if they are not done by then.
 */
export async function savedReport(page: Page, studies: 'made' | 'left out'): Promise<Download> {
  const saving = page.waitForEvent('download', { timeout: 170_000 });
  await page.getByRole('button', { name: 'Clearance report' }).click();
  if (studies === 'left out') {
    const leave = page.getByRole('button', { name: 'Save without it' });
    await Promise.race([saving, leave.click({ timeout: 170_000 })]);
  }
  return saving;
}
