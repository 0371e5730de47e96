import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { swept } from '../onWorkbench.ts';
import type { Hand } from './hand.ts';
import { until } from './until.ts';

/** What someone does at the workbench with the desert demo open, and how it is seen that it was done. */
export interface Task {
  /** Of its picture. */
  id: string;
  does: string;
  run(page: Page, hand: Hand): Promise<void>;
}

const pair = (page: Page, text: string): Locator =>
  page.getByRole('listbox', { name: 'Pairs by margin' }).getByRole('option').filter({ hasText: text }).last();
const button = (page: Page, name: string | RegExp): Locator =>
  page.getByRole('button', { name, exact: typeof name === 'string' });
const rule = (page: Page, name: 'Travel' | 'Steer'): Locator =>
  page.getByRole('slider', { name, exact: true });
const part = (page: Page, name: string): Locator =>
  page.locator('.parts-list').getByRole('button', { name: new RegExp(`^${name}`) });
/** Takes a part into hand, from its list in place of a sheet that stands there. */
async function takeInHand(page: Page, hand: Hand, name: string): Promise<void> {
  const back = button(page, 'Parts list');
  if ((await back.count()) > 0) await hand.press(back);
  await hand.press(part(page, name));
}
const field = (page: Page, name: string): Locator => page.getByLabel(name, { exact: true });
const measured = (page: Page): Locator => page.locator('[data-testid=dimension]:not([data-stale]):visible');
const gapOf = async (page: Page, text: string): Promise<string | null> => {
  const row = pair(page, text);
  return (await row.count()) === 0 ? null : row.locator('.pair-gap').textContent();
};
/** Waits the time that a sweep takes on a busy machine. */
const PATIENT = { timeout: 60_000 };

export const TASKS: readonly Task[] = [
  {
    id: 'worst-pair',
    does: 'opens the demo and reads the worst pair',
    async run(page) {
      const first = page.getByRole('listbox', { name: 'Pairs by margin' }).getByRole('option').first();
      const text = (await first.textContent()) ?? '';
      expect(text).toContain('Wheel 17 × 9 ↔ Tie-rod end');
      expect(text).toContain('touches');
      expect(text).toMatch(/droop −\d+(\.\d)?, rack \+\d+(\.\d+)? (mm|in)/);
    },
  },
  {
    id: 'lock-that-hits',
    does: 'scrubs to the lock that hits',
    async run(page, hand) {
      const crosses = () => page.locator('.touch-crosses path').count();
      expect(await crosses()).toBe(0);
      await hand.slide(rule(page, 'Travel'), 'low');
      await hand.slide(rule(page, 'Steer'), 'low');
      await until(crosses, (count) => count > 0);
      expect(await rule(page, 'Travel').getAttribute('aria-valuetext')).toMatch(/^droop −(6 in|152)/);
      expect(await rule(page, 'Steer').getAttribute('aria-valuetext')).toMatch(/to the left$/);
      const view = page.getByRole('region', { name: 'The corner in three dimensions' });
      const summary = page.locator(`[id="${await view.getAttribute('aria-describedby')}"]`);
      await until(
        () => summary.textContent(),
        (text) => text?.includes('Wheel 17 × 9 ↔ Tie-rod end, touches.') ?? false,
      );
    },
  },
  {
    id: 'tight-spot',
    does: 'jumps to a tight spot',
    async run(page, hand) {
      const row = pair(page, 'Wheel 17 × 9 ↔ Upper arm');
      const place = (await row.textContent())?.match(
        /(?:bump|droop) [−+][\d.]+, rack [−+][\d.]+ (?:mm|in)/,
      )?.[0];
      await hand.choose(row);
      const gap = await row.locator('.pair-gap').textContent();
      // The frame that draws the dimension may come a little after the one that lights the row.
      await until(
        async () => (await measured(page).allTextContents()).join(),
        (text) => text.startsWith(`${gap} `),
      );
      await page.getByRole('region', { name: 'This pose' }).getByRole('heading', { name: place }).waitFor();
    },
  },
  {
    id: 'dimension-typed',
    does: 'types a dimension in inch fractions with its tolerance, and undoes it',
    async run(page, hand) {
      const of = 'Donor caliper ↔ Upright plates';
      const before = await gapOf(page, of);
      await takeInHand(page, hand, 'Donor caliper');
      const inner = field(page, 'Body, inner radius');
      const stood = await inner.inputValue();
      await hand.type(inner, '4 1/4 in ±1/32');
      expect(await inner.inputValue()).toBe('4 1/4 in ±1/32');
      await until(
        () => gapOf(page, of),
        (gap) => gap !== before && /\d/.test(gap ?? ''),
      );
      await hand.press(button(page, /^Undo Donor caliper, body, inner radius/));
      await until(() => inner.inputValue(), stood);
      await until(() => gapOf(page, of), before);
    },
  },
  {
    id: 'caliper-turned',
    does: 'turns the caliper by ten degrees and watches the fit pairs',
    async run(page, hand) {
      // The bolt rides on the upright as the caliper does, so that their clearance is one of fit.
      const of = 'Donor caliper ↔ Lower uniball bolt';
      const before = await gapOf(page, of);
      await takeInHand(page, hand, 'Donor caliper');
      expect(await field(page, 'Clocking').inputValue()).toMatch(/^[-−]96/);
      await hand.type(field(page, 'Clocking'), '-106');
      await until(
        () => gapOf(page, of),
        (gap) => gap !== before && /\d/.test(gap ?? ''),
      );
      await swept(page);
    },
  },
  {
    id: 'section',
    does: 'cuts a section through the tight spot',
    async run(page, hand) {
      await hand.choose(pair(page, 'Wheel 17 × 9 ↔ Tie rod'));
      await measured(page).waitFor(PATIENT);
      await hand.press(button(page, 'Section'));
      const names = page.locator('[data-testid=cut-name]:visible');
      await until(() => names.allTextContents(), ['Wheel 17 × 9', 'Tie rod']);
    },
  },
  {
    id: 'two-poses',
    does: 'compares two poses',
    async run(page, hand) {
      await hand.choose(pair(page, 'Wheel 17 × 9 ↔ Tie rod'));
      await measured(page).waitFor(PATIENT);
      await hand.press(button(page, 'Hold this pose'));
      await hand.slide(rule(page, 'Travel'), 'high');
      const rows = page.getByRole('region', { name: 'Held poses' }).getByRole('row');
      const difference = () => rows.filter({ hasText: 'droop' }).getByRole('cell').nth(2).textContent();
      // Nothing but zero until the new pose is measured.
      await until(difference, (text) => /^[−+]?[\d.]*[1-9][\d.]* ± \d/.test(text ?? ''));
    },
  },
  {
    id: 'new-corner',
    does: 'starts a new corner and comes to its first sweep',
    async run(page, hand) {
      await hand.press(button(page, 'New corner'));
      const sheet = page.getByRole('dialog', { name: 'New corner' });
      const typed = async (name: string, text: string) => {
        await hand.type(sheet.getByRole('textbox', { name, exact: true }), text);
      };
      await typed('Rim width', '8 1/2 in');
      await typed('Rotor diameter', '12 in ±1/64');
      await typed('Kingpin length', '11 1/4 in');
      await hand.press(sheet.getByRole('button', { name: 'Make it' }));
      await page.getByRole('heading', { level: 1, name: /^New corner/ }).waitFor(PATIENT);
      await swept(page);
      expect(await page.getByRole('option').count()).toBeGreaterThan(5);
    },
  },
  {
    id: 'reloaded',
    does: 'reloads in the middle of the work and goes on',
    async run(page, hand) {
      await takeInHand(page, hand, 'Rotor 13 in');
      await hand.type(field(page, 'Diameter'), '12 7/8 in ±1/64');
      await button(page, 'Save • changes').waitFor();
      // The last second may be lost.
      await page.waitForTimeout(1000);
      page.once('dialog', (dialog) => void dialog.accept());
      await page.reload();
      await swept(page);
      await button(page, 'Save • changes').waitFor();
      await takeInHand(page, hand, 'Rotor 13 in');
      expect(await field(page, 'Diameter').inputValue()).toBe('12 7/8 in ±1/64');
    },
  },
];
