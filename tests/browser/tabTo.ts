import type { Locator } from 'playwright-core';

const MOST_PRESSES = 250;

/** Presses Tab from the current focus until the element has the focus; Shift+Tab if the element is before the focus. */
export async function tabTo(target: Locator): Promise<void> {
  await target.waitFor();
  const isBefore = await target.evaluate((element) => {
    const focus = document.activeElement ?? document.body;
    return (
      focus !== document.body &&
      (focus.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_PRECEDING) !== 0
    );
  });
  const key = isBefore ? 'Shift+Tab' : 'Tab';
  for (let presses = 0; presses < MOST_PRESSES; presses++) {
    if (await target.evaluate((element) => element === document.activeElement)) return;
    await target.page().keyboard.press(key);
  }
  throw new Error(`Tab does not lead to ${target}`);
}
