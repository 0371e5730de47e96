import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import { launchChromium } from './chromium.ts';
import { type Served, serveWorkbench } from './server.ts';

interface Opened {
  /** Id of a demo, opened at once. */
  demo?: string;
  /** Text of a corner file, opened in place of any demo. */
  corner?: string;
  context?: BrowserContextOptions;
}

export interface Bench {
  readonly page: Page;
  /** Address of a page that is served beside the workbench. */
  at(path: string): string;
}

/**
 * The workbench of a quick sweep, open in a page for the tests of one file, cautions read and the corner swept and proved.
 * Nothing may go wrong in the page in the meantime.
 */
export function onWorkbench({ demo, corner, context }: Opened): Bench {
  let served: Served;
  let browser: Browser;
  let page: Page;
  const errors: string[] = [];
  const at = (path: string) => new URL(path, served.url).href;
  beforeAll(async () => {
    served = await serveWorkbench();
    browser = await launchChromium();
    page = await browser.newPage({ viewport: { width: 1440, height: 900 }, ...context });
    page.on('pageerror', (error) => errors.push(error.message));
    await page.goto(at(`/tests/app/coarse/index.html${demo === undefined ? '' : `?demo=${demo}`}`));
    await page.getByRole('button', { name: 'I have read this' }).click({ timeout: 60_000 });
    if (corner !== undefined) {
      const buffer = Buffer.from(corner);
      await page
        .getByLabel('Corner file')
        .setInputFiles({ name: 'bench.corner.json', mimeType: 'application/json', buffer });
    }
    await swept(page);
  });
  afterAll(async () => {
    await browser?.close();
    await served?.close();
    expect(errors).toEqual([]);
  });
  return {
    get page() {
      return page;
    },
    at,
  };
}

/** Waits until the corner in hand is swept and proved. */
export const swept = (page: Page): Promise<void> =>
  page.locator('[data-testid=sweep-status][data-progress=done]').waitFor({ timeout: 120_000 });
