import type { Page } from 'playwright-core';
import { it } from 'vitest';
import { onWorkbench, swept, understood } from '../onWorkbench.ts';
import type { Hand } from './hand.ts';
import type { Task } from './tasks.ts';

/**
 * Tests each task by mouse or by keyboard. Tasks share a page until one fails or leaves another corner; a change that one
 * leaves is undone. Each page starts with the cautions open.
 */
export function testTasks(tasks: readonly Task[], handOn: (page: Page) => Hand): void {
  const bench = onWorkbench({ demo: 'gravelbeck', cautions: 'left', waitMs: 20_000 });
  let page: Page | undefined;
  /** Whether the page still shows the demo, for the next task. */
  let isReusable = false;

  it.each(tasks)('$does', async ({ run, leaves }) => {
    if (page === undefined || !isReusable) {
      if (page === undefined) page = bench.page;
      else {
        await page.context().close();
        page = await bench.open();
        await swept(page);
      }
      await handOn(page).press(understood(page));
    }
    isReusable = false;
    await run(page, handOn(page));
    if (leaves === 'change') {
      await page.keyboard.press('Control+z');
      await page.getByRole('button', { name: 'Save', exact: true }).waitFor();
      await swept(page);
    }
    isReusable = leaves !== 'corner';
  });
}
