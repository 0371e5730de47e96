import type { Locator } from 'playwright-core';

const MOST_PRESSES = 250;

/** Presses Tab, forward from wherever one is, until the focus is where it is wanted. */
export async function tabTo(wanted: Locator): Promise<void> {
  await wanted.waitFor();
  for (let presses = 0; presses < MOST_PRESSES; presses++) {
    if (await wanted.evaluate((element) => element === document.activeElement)) return;
    await wanted.page().keyboard.press('Tab');
  }
  throw new Error(`Tab does not lead to ${wanted}`);
}
