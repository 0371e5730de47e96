/**
 * Takes the pictures of README and guide from the running application: `npm run pictures`. One of the workbench, and one of each
 * task of the tour, done by mouse. Arguments: names of the pictures to take; default: all.
 */
import { mkdirSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Page } from 'playwright-core';
import { launchChromium } from './chromium.ts';
import { swept } from './onWorkbench.ts';
import { serveWorkbench } from './server.ts';
import { byMouse } from './tour/hand.ts';
import { TASKS, type Task } from './tour/tasks.ts';

const PUBLIC = resolve(import.meta.dirname, '../../public');
/** Time for the camera to reach a new view and for software rendering. */
const SETTLED_MS = 6000;

const workbench = {
  id: 'workbench',
  async run(page: Page) {
    await page.getByRole('listbox', { name: 'Pairs by margin' }).getByRole('option').first().click();
    await page.waitForTimeout(SETTLED_MS);
    await page.getByRole('button', { name: 'Inboard', exact: true }).click();
  },
};

const wanted = process.argv.slice(2);
const served = await serveWorkbench();
const browser = await launchChromium();
mkdirSync(resolve(PUBLIC, 'tour'), { recursive: true });
try {
  const all: Pick<Task, 'id' | 'run'>[] = [workbench, ...TASKS];
  for (const { id, run } of all.filter((task) => wanted.length === 0 || wanted.includes(task.id))) {
    const context = await browser.newContext({
      viewport: { width: 1440, height: 900 },
      colorScheme: 'light',
    });
    const page = await context.newPage();
    await page.goto(served.url);
    await page.getByRole('button', { name: 'I have read this' }).click();
    await swept(page);
    await run(page, byMouse(page));
    await swept(page);
    await page.waitForTimeout(SETTLED_MS);
    if (id === workbench.id) await page.screenshot({ path: resolve(PUBLIC, 'workbench.png') });
    else await page.screenshot({ path: resolve(PUBLIC, `tour/${id}.jpg`), type: 'jpeg', quality: 80 });
    console.log(id);
    await context.close();
  }
} finally {
  await browser.close();
  await served.close();
}
