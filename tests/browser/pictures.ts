/** Takes the README's picture of the workbench anew from the running application: `npm run pictures`. */
import { resolve } from 'node:path';
import { launchChromium } from './chromium.ts';
import { serveWorkbench } from './server.ts';

const PICTURE = resolve(import.meta.dirname, '../../public/workbench.png');
/** The camera's way to a new view. */
const SETTLED_MS = 6000;

const served = await serveWorkbench();
const browser = await launchChromium();
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, colorScheme: 'light' });
  await page.goto(served.url);
  await page.getByRole('button', { name: 'I have read this' }).click();
  await page.locator('[data-testid=sweep-status][data-progress=done]').waitFor({ timeout: 300_000 });
  await page.getByRole('listbox', { name: 'Pairs by margin' }).getByRole('option').first().click();
  await page.waitForTimeout(SETTLED_MS);
  await page.getByRole('button', { name: 'Corner', exact: true }).click();
  await page.waitForTimeout(SETTLED_MS);
  await page.screenshot({ path: PICTURE });
} finally {
  await browser.close();
  await served.close();
}
