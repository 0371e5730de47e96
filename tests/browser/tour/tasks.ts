import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { draftKept } from '../draftKept.ts';
import { swept } from '../onWorkbench.ts';
import type { Hand } from './hand.ts';
import { until } from './until.ts';

/** A task at the workbench with the river racer open; `run` does it and checks the result. */
export interface Task {
  /** Name of its picture. */
  id: string;
  does: string;
  /** What the task leaves behind: one change of the demo, or another corner. By default neither. */
  leaves?: 'change' | 'corner';
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
/** Selects a part in the parts list, and closes a sheet first if one is open. */
async function selectPart(page: Page, hand: Hand, name: string): Promise<void> {
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
/** Timeout for a sweep on a busy machine. */
const PATIENT = { timeout: 60_000 };

export const TASKS: readonly Task[] = [
  {
    id: 'worst-pair',
    does: 'opens the demo and reads the worst pair',
    async run(page) {
      const first = page.getByRole('listbox', { name: 'Pairs by margin' }).getByRole('option').first();
      const text = (await first.textContent()) ?? '';
      expect(text).toContain('Wheel 16 × 8 ↔ Tie-rod end');
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
        (text) => text?.includes('Wheel 16 × 8 ↔ Tie-rod end, touches.') ?? false,
      );
    },
  },
  {
    id: 'tight-spot',
    does: 'jumps to a tight spot',
    async run(page, hand) {
      const row = pair(page, 'Wheel 16 × 8 ↔ Upper arm');
      const place = (await row.textContent())?.match(
        /(?:bump|droop) [−+][\d.]+, rack [−+][\d.]+ (?:mm|in)/,
      )?.[0];
      await hand.choose(row);
      const gap = await row.locator('.pair-gap').textContent();
      // The dimension may be drawn a frame later than the row is highlighted.
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
      const of = 'Twin-piston caliper ↔ Fabricated upright';
      const before = await gapOf(page, of);
      await selectPart(page, hand, 'Twin-piston caliper');
      const inner = field(page, 'Body, inner radius');
      const original = await inner.inputValue();
      await hand.type(inner, '4 in ±1/32');
      expect(await inner.inputValue()).toBe('4 in ±1/32');
      await until(
        () => gapOf(page, of),
        (gap) => gap !== before && /\d/.test(gap ?? ''),
      );
      await hand.press(button(page, /^Undo Twin-piston caliper, body, inner radius/));
      await until(() => inner.inputValue(), original);
      await until(() => gapOf(page, of), before);
    },
  },
  {
    id: 'caliper-turned',
    does: 'turns the caliper by ten degrees and checks a pair that never moves',
    leaves: 'change',
    async run(page, hand) {
      // The upright carries both bolt and caliper, so that their clearance is the same at every pose.
      const of = 'Twin-piston caliper ↔ Upper ball joint bolt';
      const before = await gapOf(page, of);
      await selectPart(page, hand, 'Twin-piston caliper');
      expect(await field(page, 'Clocking').inputValue()).toMatch(/^[-−]56/);
      await hand.type(field(page, 'Clocking'), '-46');
      await until(
        () => gapOf(page, of),
        (gap) => gap !== before && /\d/.test(gap ?? ''),
      );
    },
  },
  {
    id: 'section',
    does: 'cuts a section through the tight spot',
    async run(page, hand) {
      await hand.choose(pair(page, 'Wheel 16 × 8 ↔ Tie rod'));
      await measured(page).waitFor(PATIENT);
      await hand.press(button(page, 'Section'));
      const names = page.locator('[data-testid=cut-name]:visible');
      await until(() => names.allTextContents(), ['Wheel 16 × 8', 'Tie rod']);
    },
  },
  {
    id: 'two-poses',
    does: 'compares two poses',
    async run(page, hand) {
      await hand.choose(pair(page, 'Wheel 16 × 8 ↔ Tie rod'));
      await measured(page).waitFor(PATIENT);
      await hand.press(button(page, 'Hold this pose'));
      await hand.slide(rule(page, 'Travel'), 'high');
      const rows = page.getByRole('region', { name: 'Held poses' }).getByRole('row');
      const difference = () => rows.filter({ hasText: 'droop' }).getByRole('cell').nth(2).textContent();
      // Zero until the new pose is measured.
      await until(difference, (text) => /^[−+]?[\d.]*[1-9][\d.]* ± \d/.test(text ?? ''));
    },
  },
  {
    id: 'reloaded',
    does: 'keeps the work after a reload',
    leaves: 'change',
    async run(page, hand) {
      await selectPart(page, hand, 'Rotor 12 in');
      await hand.type(field(page, 'Diameter'), '11 7/8 in ±1/64');
      await button(page, 'Save • changes').waitFor();
      await draftKept(page, '11 7/8 in ±1/64');
      page.once('dialog', (dialog) => void dialog.accept());
      await page.reload();
      await button(page, 'Save • changes').waitFor(PATIENT);
      await selectPart(page, hand, 'Rotor 12 in');
      expect(await field(page, 'Diameter').inputValue()).toBe('11 7/8 in ±1/64');
    },
  },
  {
    id: 'new-corner',
    does: 'creates a new corner and sweeps it',
    leaves: 'corner',
    async run(page, hand) {
      await hand.press(button(page, 'New corner'));
      const sheet = page.getByRole('dialog', { name: 'New corner' });
      const typed = async (name: string, text: string) => {
        await hand.type(sheet.getByRole('textbox', { name, exact: true }), text);
      };
      await typed('Rim width', '8 1/2 in');
      await typed('Rotor diameter', '12 in ±1/64');
      await typed('Kingpin length', '11 1/4 in');
      await hand.press(sheet.getByRole('button', { name: 'Create corner' }));
      await page.getByRole('heading', { level: 1, name: /^New corner/ }).waitFor(PATIENT);
      await swept(page);
      expect(await page.getByRole('option').count()).toBeGreaterThan(5);
    },
  },
];
