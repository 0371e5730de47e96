import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { demoText } from '../app/coarse/setUpCoarse.ts';
import { type Bench, chooseFile, onWorkbench, swept, understood } from './onWorkbench.ts';
import { overlayFaults } from './overlayContrast.ts';

/**
 * Every screen under the rules of axe-core for WCAG 2.0 to 2.2, A and AA (github.com/dequelabs/axe-core): names, roles,
 * contrast, order of headings, size of targets.
 */
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

const gravelbeck = JSON.parse(demoText('gravelbeck'));
/** Fewer parts make the studies shorter, and the lists that each screen shows. */
const KINDS = ['wheel', 'hub', 'rotor', 'caliper', 'upright', 'controlArm', 'tieRod'];

/**
 * Runs axe-core in the page alone: without frames, its results need no second page. Of what passes it names one element for
 * each rule: to name thousands takes most of its time.
 */
const axeOn = (page: Page): AxeBuilder =>
  new AxeBuilder({ page }).setLegacyMode().options({ resultTypes: ['violations'] });

/** Faults found by axe-core, and low contrast over the picture, in both themes; one line per fault. */
async function faultsOn(page: Page): Promise<string[]> {
  const light = await faultsInTheme(page, axeOn(page).withTags(RULES));
  // The themes differ only in colours.
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.locator('html[data-theme=dark]').waitFor();
  const dark = await faultsInTheme(page, axeOn(page).withRules('color-contrast'));
  await page.emulateMedia({ colorScheme: 'light' });
  await page.locator('html[data-theme=light]').waitFor();
  return [...light.map((fault) => `light: ${fault}`), ...dark.map((fault) => `dark: ${fault}`)];
}

async function faultsInTheme(page: Page, rules: AxeBuilder): Promise<string[]> {
  const { violations, passes } = await rules.analyze();
  expect(passes.length).toBeGreaterThan(0);
  const over = await overlayFaults(page);
  expect(over.texts).toBeGreaterThan(3);
  return violations
    .flatMap(({ id, help, nodes }) => nodes.map(({ target }) => `${id} (${help}): ${target.join(' ')}`))
    .concat(over.faults);
}

describe('axe-core finds no fault in the light and the dark theme', () => {
  const bench = onWorkbench({ demo: 'gravelbeck', cautions: 'left', context: { colorScheme: 'light' } });
  const few = JSON.stringify({
    ...gravelbeck,
    parts: gravelbeck.parts.filter(({ kind }: { kind: string }) => KINDS.includes(kind)),
  });

  const screens = {
    async 'the cautions'(): Promise<void> {},
    async 'the workbench'({ page }: Bench) {
      await understood(page).click();
    },
    async 'the sheet of a part'({ page }: Bench) {
      await chooseFile(page, 'few.corner.json', few);
      await expect.poll(() => page.locator('.parts-list').getByRole('button').count()).toBeLessThan(30);
      await swept(page);
      await page
        .getByRole('button')
        .filter({ hasText: /^Rotor/ })
        .first()
        .click();
    },
    async 'the rules of pairs'({ page }: Bench) {
      await page.getByRole('button', { name: 'Corner and pair rules' }).click();
      await page.getByRole('button', { name: 'Add rule' }).click();
      await page.getByLabel('Rule 1, target', { exact: true }).waitFor();
      await swept(page);
    },
    async 'the points'({ page }: Bench) {
      await page.keyboard.press('Control+z');
      await page.getByRole('button', { name: 'Points and suspension' }).click();
      await page.locator('.point-dot[title="Upper joint"]').click();
    },
    async 'the clocking study with a wrong range'({ page }: Bench) {
      await page.getByRole('button', { name: 'Caliper and hub clocking' }).click();
      await page.getByTestId('fit-now').waitFor({ timeout: 120_000 });
      await page.getByText('Ranges and plates').click();
      await page.getByLabel('Hub clocking, to, degrees').fill('x');
      await page.getByLabel('Hub clocking, to, degrees').press('Enter');
    },
    async 'arrangements that are swept'({ page }: Bench) {
      await page.getByRole('button', { name: 'Sweep the arrangements' }).click();
    },
    async 'swept arrangements'({ page }: Bench) {
      await page.getByText('Ranked by worst margin over all travel and lock.').waitFor({ timeout: 120_000 });
    },
    async 'variants without a step'({ page }: Bench) {
      await page.getByRole('button', { name: 'Variants' }).click();
      await page.getByRole('textbox', { name: 'From', exact: true }).fill('140');
      await page.getByRole('textbox', { name: 'To', exact: true }).fill('150');
      await page.getByRole('button', { name: 'Try values' }).click();
    },
    async 'variants that were tried'({ page }: Bench) {
      await page.getByRole('textbox', { name: 'Step', exact: true }).fill('10');
      await page.getByRole('button', { name: 'Try values' }).click();
      await page.getByTestId('varied').waitFor({ timeout: 120_000 });
    },
    async 'a selected pair'({ page }: Bench) {
      await page.getByRole('listbox', { name: 'Pairs by margin' }).getByRole('option').first().click();
    },
    async 'the tape'({ page }: Bench) {
      await page.getByRole('button', { name: 'Tape', exact: true }).click();
      await page.getByText('Choose from list').click();
      for (const name of [/^hole centre/, /^flat face/])
        await page.getByRole('option', { name }).first().click();
    },
    async 'a section and a held pose'({ page }: Bench) {
      await page.keyboard.press('Escape');
      await page.keyboard.press('Escape');
      await page.getByRole('button', { name: 'Section', exact: true }).click();
      await page.getByRole('region', { name: 'Section' }).waitFor();
      await page.getByRole('button', { name: 'Hold this pose' }).click();
      await page.getByRole('region', { name: 'Held poses' }).waitFor();
    },
    async 'a new corner'({ page }: Bench) {
      await page.getByRole('button', { name: 'New corner' }).click();
      const start = page.getByRole('dialog', { name: 'New corner' });
      await start.getByRole('textbox', { name: 'Bolt circle' }).fill('seven');
      await start.getByRole('textbox', { name: 'Kingpin length' }).focus();
    },
    async 'the problems of a file'({ page }: Bench) {
      await page.keyboard.press('Escape');
      await chooseFile(page, 'bad.json', '{}');
      await page.getByRole('dialog').waitFor();
    },
  };

  // Each screen follows from the one before.
  it.each(Object.entries(screens))('on %s', async (_, show) => {
    await show(bench);
    expect(await faultsOn(bench.page)).toEqual([]);
  });
});
