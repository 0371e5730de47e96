import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { smallCorner } from '../design/fixtures.ts';
import { onWorkbench } from './onWorkbench.ts';

/** Number of the page's buffers on the graphics card. */
const countBuffers = (page: Page) =>
  page.addInitScript(() => {
    const { createBuffer, deleteBuffer } = WebGL2RenderingContext.prototype;
    const held = new Set<WebGLBuffer>();
    WebGL2RenderingContext.prototype.createBuffer = function () {
      const made = createBuffer.apply(this);
      held.add(made);
      return made;
    };
    WebGL2RenderingContext.prototype.deleteBuffer = function (buffer) {
      if (buffer !== null) held.delete(buffer);
      deleteBuffer.apply(this, [buffer]);
    };
    Object.assign(window, { heldBuffers: () => held.size });
  });

const bench = onWorkbench({ corner: JSON.stringify(smallCorner()), before: countBuffers, waitMs: 10_000 });

/** Bytes of the array buffers that the page holds. */
async function bufferBytes(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  try {
    await session.send('HeapProfiler.collectGarbage');
    const { backingStorageSize } = await session.send('Runtime.getHeapUsage');
    return backingStorageSize;
  } finally {
    await session.detach();
  }
}

it('holds as many buffers after many changes as after one', async () => {
  const { page } = bench;
  const held = () => page.evaluate<number>('heldBuffers()');
  await page
    .locator('.parts-list')
    .getByRole('button', { name: /^wheel/ })
    .first()
    .click();
  await page.getByLabel('Width', { exact: true }).focus();
  const step = async (key: string) => {
    await page.keyboard.press(key);
    await page.locator('.workbench[data-standing=current]').waitFor();
    // Time to draw the corner and dispose of the previous geometries.
    await page.waitForTimeout(300);
  };
  await step('ArrowUp');
  await expect.poll(held, { timeout: 30_000 }).toBeGreaterThan(10);
  await page.waitForTimeout(2000);
  const first = await held();
  const firstBytes = await bufferBytes(page);
  for (let k = 0; k < 15; k++) await step(k % 2 === 0 ? 'ArrowDown' : 'ArrowUp');
  await expect.poll(held, { timeout: 20_000 }).toBe(first);
  // History and previous corner included. Meshes of all corners would be more than three times as much.
  await expect.poll(() => bufferBytes(page), { timeout: 20_000 }).toBeLessThan(2 * firstBytes);
});
