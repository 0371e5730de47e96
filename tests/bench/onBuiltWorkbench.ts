import type { Page } from 'playwright-core';
import { launchChromium } from '../browser/chromium.ts';
import { serveBuild } from './serveBuild.ts';

/** Runs `use` on the built workbench once its first corner is swept and proved. */
export async function onBuiltWorkbench<T>(use: (page: Page) => Promise<T>): Promise<T> {
  const served = await serveBuild({ minified: true });
  const browser = await launchChromium();
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.addInitScript(() => localStorage.setItem('daylight.cautions-read', 'yes'));
    await page.goto(served.url);
    await page.locator('[data-testid=sweep-status][data-progress=done]').waitFor({ timeout: 240_000 });
    return await use(page);
  } finally {
    await browser.close();
    await served.close();
  }
}
