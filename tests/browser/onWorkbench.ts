import type { Browser, BrowserContextOptions, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import { coarsePage, connectBrowser, VIEW } from './opened.ts';

interface Opened {
  /** Id of a demo to open. */
  demo?: string;
  /** Text of a corner file to open instead of a demo. */
  corner?: string;
  context?: BrowserContextOptions;
  /** Whether the cautions are closed (default) or left open. */
  cautions?: 'read' | 'left';
  /** Runs in each page before the workbench is loaded. */
  before?(page: Page): Promise<unknown>;
  /** `recorded`, the default, reuses what other tests of the run have built, swept and proved; `made` reuses nothing. */
  results?: 'made' | 'recorded';
  /** `blank`, the default, draws nothing into the canvas of the view; `drawn` draws the picture. */
  picture?: 'blank' | 'drawn';
  /** Waits for the state that the tests need; by default until the corner is swept and proved. */
  until?(page: Page): Promise<void>;
  /** Timeout of an action on an element once the page is open, ms. */
  waitMs?: number;
}

export interface Bench {
  readonly page: Page;
  /**
   * Opens one more page with its own storage. Its corner may still be being swept.
   */
  open(before?: Opened['before']): Promise<Page>;
}

/**
 * Opens the workbench with a coarse sweep in a page for the tests of one file. Fails if the page throws an error.
 */
export function onWorkbench(opened: Opened): Bench {
  const { demo, corner, context, cautions = 'read', until = swept, waitMs } = opened;
  const { results = 'recorded', picture = 'blank' } = opened;
  let browser: Browser;
  let page: Page;
  const errors: string[] = [];
  const open: Bench['open'] = async (before = opened.before) => {
    const own = await browser.newContext({
      ...VIEW,
      ...context,
    });
    const made = await own.newPage();
    made.on('pageerror', (error) => errors.push(error.message));
    await before?.(made);
    // Without an example, so that only the corner is swept.
    const first = corner === undefined ? demo : 'none';
    await made.goto(coarsePage({ results, picture, ...(first === undefined ? {} : { demo: first }) }));
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
  beforeAll(async () => {
    browser = await connectBrowser();
    page = await open();
    await until(page);
  });
  afterAll(async () => {
    await browser?.close();
    expect(errors).toEqual([]);
  });
  return {
    get page() {
      return page;
    },
    open,
  };
}

const nameIn = (corner: string): string => JSON.parse(corner).name;

/** Opens a corner file with this name and text through the file input. */
export const chooseFile = (page: Page, name: string, text: string): Promise<void> =>
  page
    .getByLabel('Corner file')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

/** Goes back to the parts list if a sheet is open. */
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

/** The button that closes the cautions. */
export const understood = (page: Page): Locator => page.getByRole('button', { name: 'I have read this' });

/**
 * Waits until the corner is swept and proved and all panels are shown. They are mounted one after another, the two charts last,
 * and recorded results can arrive before them.
 */
export async function swept(page: Page): Promise<void> {
  await page.locator('[data-testid=sweep-status][data-progress=done]').waitFor({ timeout: 120_000 });
  await page.locator('.chart').nth(1).waitFor({ state: 'attached', timeout: 60_000 });
}

/** Waits until every step is measured, so that tight spots are known. The proof may still run. */
export const measured = (page: Page): Promise<void> =>
  page.locator('button:enabled').filter({ hasText: 'Clearance report' }).waitFor({ timeout: 110_000 });
