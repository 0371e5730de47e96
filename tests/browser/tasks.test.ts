import { describe, it } from 'vitest';
import { onWorkbench, understood } from './onWorkbench.ts';
import { byKeyboard, byMouse } from './tour/hand.ts';
import { TASKS } from './tour/tasks.ts';

describe.each([
  ['by mouse', byMouse],
  ['by keyboard alone', byKeyboard],
])('%s a person', (_, handOn) => {
  // For each task somebody new, who has the cautions to read first.
  const bench = onWorkbench({ demo: 'saltpan', cautions: 'left', pageFor: 'test', waitMs: 20_000 });

  it.each(TASKS)('$does', async ({ run }) => {
    const { page } = bench;
    const hand = handOn(page);
    await hand.press(understood(page));
    await run(page, hand);
  });
});
