import type { Locator } from 'playwright-core';

const MOST_PRESSES = 250;

/** Presses Tab from the current focus until the element has the focus; Shift+Tab if the element is before the focus. */
export async function tabTo(target: Locator): Promise<void> {
  await target.waitFor();
  // Found once: finding an element by its role takes as long as a press of Tab.
  const found = await target.elementHandle();
  if (found === null) throw new Error(`there is no ${target}`);
  const isBefore = await found.evaluate((element) => {
    const focus = document.activeElement ?? document.body;
    return (
      focus !== document.body &&
      (focus.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_PRECEDING) !== 0
    );
  });
  const key = isBefore ? 'Shift+Tab' : 'Tab';
  for (let presses = 0; presses < MOST_PRESSES; presses++) {
    if (await found.evaluate((element) => element === document.activeElement)) return;
    await target.page().keyboard.press(key);
  }
  throw new Error(`Tab does not lead to ${target}`);
}
