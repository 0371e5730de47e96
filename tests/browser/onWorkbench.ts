import type { Browser, BrowserContextOptions, Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect } from 'vitest';
import { launchChromium } from './chromium.ts';
import { type Served, serveWorkbench } from './server.ts';

interface Opened {
  /** Id of a demo, opened at once. */
  demo?: string;
  /** Text of a corner file, opened in place of any demo. */
  corner?: string;
  context?: BrowserContextOptions;
  /** The cautions are read, as is usual, or left standing over the workbench. */
  cautions?: 'read' | 'left';
  /** Done in each page before the workbench is loaded in it. */
  before?(page: Page): Promise<unknown>;
  /** A page for all tests of the file, as is usual, or for each of them one in which nothing is kept of another. */
  pageFor?: 'file' | 'test';
  /** Waits for what the tests need of the corner; as is usual, until it is swept and proved. */
  until?(page: Page): Promise<void>;
  /** How long an action may wait for its element once the page is open, ms. */
  waitMs?: number;
}

export interface Bench {
  readonly page: Page;
  /** Address of a page that is served beside the workbench. */
  at(path: string): string;
  /**
   * One more page, in which nothing is kept of the others; its corner may still be being swept.
   */
  open(before?: Opened['before']): Promise<Page>;
}

/**
 * The workbench of a quick sweep, open in a page for the tests of one file, the corner swept and proved.
 * Nothing may go wrong in the page in the meantime.
 */
export function onWorkbench(opened: Opened): Bench {
  const { demo, corner, context, cautions = 'read', pageFor = 'file', until = swept, waitMs } = opened;
  let served: Served;
  let browser: Browser;
  let page: Page;
  const errors: string[] = [];
  const at = (path: string) => new URL(path, served.url).href;
  const open: Bench['open'] = async (before = opened.before) => {
    const own = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...context });
    const made = await own.newPage();
    made.on('pageerror', (error) => errors.push(error.message));
    await before?.(made);
    await made.goto(at(`/tests/app/coarse/index.html${demo === undefined ? '' : `?demo=${demo}`}`));
    const button = understood(made);
    await button.waitFor({ timeout: 60_000 });
    if (cautions === 'read') await (context?.hasTouch ? button.tap() : button.click());
    if (corner !== undefined) {
      await chooseFile(made, 'bench.corner.json', corner);
      await made.getByRole('heading', { level: 1, name: nameIn(corner) }).waitFor({ timeout: 60_000 });
    }
    if (waitMs !== undefined) made.setDefaultTimeout(waitMs);
    return made;
  };
  const openForTests = async () => {
    page = await open();
    await until(page);
  };
  beforeAll(async () => {
    served = await serveWorkbench();
    browser = await launchChromium();
    if (pageFor === 'file') await openForTests();
  });
  afterAll(async () => {
    await browser?.close();
    await served?.close();
    expect(errors).toEqual([]);
  });
  if (pageFor === 'test') {
    beforeEach(openForTests);
    afterEach(async () => {
      await page.context().close();
      expect(errors).toEqual([]);
    });
  }
  return {
    get page() {
      return page;
    },
    at,
    open,
  };
}

const nameIn = (corner: string): string => JSON.parse(corner).name;

/** Opens a corner file of this name and text, as its button does. */
export const chooseFile = (page: Page, name: string, text: string): Promise<void> =>
  page
    .getByLabel('Corner file')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

/** Goes back to the list of parts where a sheet stands in its place. */
export async function toPartsList(page: Page): Promise<void> {
  const back = page.getByRole('button', { name: 'Parts list' });
  if ((await back.count()) > 0) await back.click();
}

/** Opens the sheet of the wheel and types its width; returns the field. */
export async function typeWheelWidth(page: Page, text: string): Promise<Locator> {
  await toPartsList(page);
  await page
    .locator('.parts-list')
    .getByRole('button', { name: /^wheel/i })
    .first()
    .click();
  const width = page.getByLabel('Width', { exact: true });
  await width.fill(text);
  await width.press('Enter');
  return width;
}

/** The button by which the cautions are read. */
export const understood = (page: Page): Locator => page.getByRole('button', { name: 'I have read this' });

/** Waits until the corner in hand is swept and proved. */
export const swept = (page: Page): Promise<void> =>
  page.locator('[data-testid=sweep-status][data-progress=done]').waitFor({ timeout: 120_000 });

/** Waits until every step is measured, so that tight spots are known; the proof goes on beside what follows. */
export const measured = (page: Page): Promise<void> =>
  page.locator('button:enabled').filter({ hasText: 'Clearance report' }).waitFor({ timeout: 110_000 });
