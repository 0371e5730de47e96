import type { Locator, Page } from 'playwright-core';
import { tabTo } from '../tabTo.ts';

/** A way to operate the screen, by mouse or by keyboard. Text is typed with keys in both. */
export interface Hand {
  /** Presses a button. */
  press(button: Locator): Promise<void>;
  /** Chooses an entry of a list. */
  choose(option: Locator): Promise<void>;
  /** Replaces the text of a field and presses Enter. */
  type(field: Locator, text: string): Promise<void>;
  /** Moves a rule to its left or lower end (low), or to the other (high). */
  slide(rule: Locator, to: 'low' | 'high'): Promise<void>;
}

/** By mouse only. */
export const byMouse = (page: Page): Hand => ({
  press: (button) => button.click(),
  choose: (option) => option.click(),
  async type(field, text) {
    await field.click({ clickCount: 3 });
    await enter(page, text);
  },
  async slide(rule, to) {
    const box = await rule.boundingBox();
    if (box === null) throw new Error('the rule is not drawn');
    const isVertical = box.height > box.width;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    const past = 4;
    if (isVertical)
      await page.mouse.move(x, to === 'low' ? box.y + box.height + past : box.y - past, { steps: 6 });
    else await page.mouse.move(to === 'low' ? box.x - past : box.x + box.width + past, y, { steps: 6 });
    await page.mouse.up();
  },
});

/** By keyboard only: every element is reached by Tab from the current focus. */
export const byKeyboard = (page: Page): Hand => ({
  async press(button) {
    await tabTo(button);
    await page.keyboard.press('Enter');
  },
  async choose(option) {
    const list = option.locator('xpath=ancestor::*[@role="listbox"][1]');
    await tabTo(list);
    await page.keyboard.press('Home');
    for (let k = 0; k < MOST_ENTRIES; k++) {
      if ((await option.getAttribute('aria-selected')) === 'true') return;
      await page.keyboard.press('ArrowDown');
    }
    throw new Error('no arrow key leads to the entry of the list');
  },
  async type(field, text) {
    await tabTo(field);
    await page.keyboard.press('Control+a');
    await enter(page, text);
  },
  async slide(rule, to) {
    await tabTo(rule);
    await page.keyboard.press(to === 'low' ? 'Home' : 'End');
  },
});

const MOST_ENTRIES = 250;

async function enter(page: Page, text: string): Promise<void> {
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}
