import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { wheelCorner } from '../design/fixtures.ts';
import { onWorkbench, swept } from './onWorkbench.ts';

/** A browser that blocks storage: access throws. */
const blocked = (page: Page) =>
  page.addInitScript(() => {
    for (const storage of ['localStorage', 'sessionStorage', 'indexedDB'])
      Object.defineProperty(window, storage, {
        get() {
          throw new DOMException('Access is denied for this document.', 'SecurityError');
        },
      });
  });

/** A browser without IndexedDB. */
const withoutIndexedDB = (page: Page) =>
  page.addInitScript(() => Object.defineProperty(window, 'indexedDB', { value: undefined }));

const bench = onWorkbench({ corner: JSON.stringify(wheelCorner()), before: blocked, waitMs: 10_000 });

async function changesAndUndoes(page: Page): Promise<void> {
  const notice = page.getByRole('status', { name: 'Drafts and saving' });
  await notice.waitFor();
  expect(await notice.textContent()).toContain(
    'No drafts are kept: the browser gives this page no storage. Save often.',
  );
  await page
    .locator('.parts-list')
    .getByRole('button', { name: /^wheel/ })
    .first()
    .click();
  const width = page.getByLabel('Width', { exact: true });
  const before = await width.inputValue();
  await width.fill('8 1/4 in');
  await width.press('Enter');
  await page.getByRole('button', { name: 'Undo wheel, width: 8 1/4 in' }).click();
  await expect.poll(() => width.inputValue()).toBe(before);
  await notice.getByRole('button', { name: 'Close' }).click();
  await notice.waitFor({ state: 'detached' });
  await swept(page);
}

it('works if the browser blocks storage, and shows that no drafts are kept', async () => {
  await changesAndUndoes(bench.page);
});

it('works without IndexedDB, and shows that no drafts are kept', async () => {
  const page = await bench.open(withoutIndexedDB);
  await changesAndUndoes(page);
  await page.context().close();
});
