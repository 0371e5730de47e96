import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchChromium } from './chromium.ts';
import { swept } from './onWorkbench.ts';
import { type Served, serveWorkbench } from './server.ts';
import { byKeyboard, byMouse } from './tour/hand.ts';
import { TASKS } from './tour/tasks.ts';

let served: Served;
let browser: Browser;

beforeAll(async () => {
  served = await serveWorkbench();
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

describe.each([
  ['by mouse', byMouse],
  ['by keyboard alone', byKeyboard],
])('%s a person', (_, handOn) => {
  it.each(TASKS)('$does', async ({ run }) => {
    // Somebody new: nothing kept of what others did.
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    const page = await context.newPage();
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(error.message));
    page.setDefaultTimeout(20_000);
    const hand = handOn(page);
    await page.goto(new URL('/tests/app/coarse/index.html?demo=saltpan', served.url).href);
    await hand.press(page.getByRole('button', { name: 'I have read this' }));
    await swept(page);
    await run(page, hand);
    expect(errors).toEqual([]);
    await context.close();
  });
});
