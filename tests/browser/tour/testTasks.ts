import type { Page } from 'playwright-core';
import { it } from 'vitest';
import { onWorkbench, understood } from '../onWorkbench.ts';
import type { Hand } from './hand.ts';
import type { Task } from './tasks.ts';

/** Tests each task by mouse or by keyboard. Each starts in a new page with the cautions open. */
export function testTasks(tasks: readonly Task[], handOn: (page: Page) => Hand): void {
  const bench = onWorkbench({ demo: 'gravelbeck', cautions: 'left', pageFor: 'test', waitMs: 20_000 });

  it.each(tasks)('$does', async ({ run }) => {
    const { page } = bench;
    const hand = handOn(page);
    await hand.press(understood(page));
    await run(page, hand);
  });
}
