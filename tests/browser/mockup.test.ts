import { text } from 'node:stream/consumers';
import { expect, it } from 'vitest';
import { box, boxCorner } from '../studies/vary/boxCorner.ts';
import { onWorkbench } from './onWorkbench.ts';
import { savedReport } from './savedReport.ts';

/** The block rises without turning: the gap is 75 mm less the travel. */
const CORNER = boxCorner(
  [
    { ...box('rising', 'upright', [], [40, 40, 30]), centre: [0, 640, '350 mm ±1 mm'] },
    box('fixed', 'chassis', [0, 640, 450], [90, 90, 20]),
  ],
  { name: 'Two blocks', unit: 'mm' },
);
const bench = onWorkbench({ corner: JSON.stringify(CORNER) });
const SOON = { timeout: 60_000 };
const result = () => bench.page.getByTestId('mockup');

it('records the gap of the selected pair at the pose in hand by G, the gap and Enter, and compares it', async () => {
  const { page } = bench;
  await page.getByRole('option', { name: /rising/ }).click();
  const travel = page.getByRole('slider', { name: 'Travel', exact: true });
  await travel.focus();
  await page.keyboard.press('0');
  await page.keyboard.press('g');
  const gap = page.getByRole('textbox', { name: 'Measured gap' });
  expect(await gap.evaluate((field) => field === document.activeElement)).toBe(true);
  await page.keyboard.press('Enter');
  await page.getByText('Measured gap is missing; type the measured gap').waitFor();
  await page.keyboard.type('72 ±1/2');
  await page.keyboard.press('Enter');
  await result().getByRole('status').waitFor(SOON);
  expect(await result().getByRole('status').textContent()).toBe(
    '1 measured gap: 0 agree with the computed gap within mesh error and measuring error, 1 differs.',
  );
  expect(await result().textContent()).toMatch(
    /✕ differs.*Computed, mm75\.00 ± 0\.01.*Measured, mm72\.00 ± 0\.50/,
  );
  expect(await result().textContent()).toMatch(/rising\.centre\[2\] 350\.00 mm: \+2\.4\d mm/);
});

it('puts the gaps into the report', async () => {
  const { page } = bench;
  await page.locator('[data-progress=done]').waitFor(SOON);
  const download = await savedReport(page, 'made');
  const report = await text(await download.createReadStream());
  expect(report).toMatch(/>Mock-up</);
  expect(report).toContain('✕ differs');
});

it('removes a gap as one change, which can be undone', async () => {
  const { page } = bench;
  await result().getByRole('button', { name: 'Remove gap 1' }).click();
  await result().waitFor({ state: 'detached' });
  await page.keyboard.press('Control+z');
  await result().getByRole('status').waitFor(SOON);
});
