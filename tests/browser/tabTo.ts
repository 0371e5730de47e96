import type { Locator } from 'playwright-core';

const MOST_PRESSES = 250;

/** Presses Tab from the current focus until the element has the focus. */
export async function tabTo(target: Locator): Promise<void> {
  await target.waitFor();
  for (let presses = 0; presses < MOST_PRESSES; presses++) {
    if (await target.evaluate((element) => element === document.activeElement)) return;
    await target.page().keyboard.press('Tab');
  }
  throw new Error(`Tab does not lead to ${target}`);
}
