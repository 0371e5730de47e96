import { expect, it } from 'vitest';
import { box, boxCorner } from '../studies/vary/boxCorner.ts';
import { onWorkbench, toPartsList } from './onWorkbench.ts';
import { savedReport } from './savedReport.ts';

/** 15 mm of clearance at full bump and a target of 14 mm; the ± of three values can take 1.25 mm of it: by hand. */
const CORNER = boxCorner(
  [
    { ...box('rising', 'upright', [], []), centre: [0, 640, '350 mm ±0.5'], size: [40, 40, '30 mm ±1'] },
    { ...box('fixed', 'chassis', [], []), centre: [0, 640, '450 mm ±0.25'], size: [90, 90, 20] },
    box('beside', 'chassis', [0, 720, 450], [40, 40, 20]),
  ],
  { name: 'Three blocks', unit: 'mm', pairs: [{ between: ['rising', 'fixed'], target: 14 }] },
);
const bench = onWorkbench({ corner: JSON.stringify(CORNER) });
const SOON = { timeout: 60_000 };

it('studies the other pairs meanwhile, so that the next one is shown at once', async () => {
  const { page } = bench;
  // Records the last progress that the sheet has shown.
  await page.evaluate(() => {
    new MutationObserver(() => {
      const shown = document.querySelector('.fit-waiting')?.textContent;
      if (shown) document.body.dataset.progress = shown;
    }).observe(document.body, { childList: true, characterData: true, subtree: true });
  });
  const progress = () => page.evaluate(() => document.body.dataset.progress);
  await page.getByRole('option', { name: /rising ↔ fixed/ }).click();
  await page.getByRole('button', { name: 'Measuring error' }).click();
  const result = page.getByTestId('measuring-error');
  await result.getByRole('heading', { name: /rising ↔ fixed: clear/ }).waitFor(SOON);
  await expect.poll(progress, SOON).toBe('1 of 2 pairs studied');
  await page.locator('.fit-waiting').waitFor({ state: 'detached', ...SOON });
  const before = await progress();
  await page.getByRole('option', { name: /rising ↔ beside/ }).click();
  await result.getByRole('heading', { name: /rising ↔ beside: clear/ }).waitFor();
  expect(await progress()).toBe(before);
  await toPartsList(page);
});

it('shows what moves a clearance, and marks a clear pair that is within its measuring error', async () => {
  const { page } = bench;
  await page.getByRole('option', { name: /rising ↔ fixed/ }).click();
  await page.getByRole('button', { name: 'Measuring error' }).click();
  const result = page.getByTestId('measuring-error');
  await result.getByText('rising ↔ fixed is studied.').waitFor(SOON);
  await result.getByRole('heading', { name: /rising ↔ fixed: clear/ }).waitFor();
  await page.getByRole('button', { name: 'Study all pairs' }).click();
  await result.getByText('2 pairs studied; 1 clear pair is within measuring error.').waitFor(SOON);
  expect(await result.getByText('Measuring error, worst case').locator('..').textContent()).toMatch(
    /1\.2[5-7]$/,
  );
  const table = (name: RegExp) => result.getByRole('table', { name });
  const rowOf = (name: RegExp, value: string) => table(name).getByRole('row', { name: value });
  expect(await rowOf(/takes most/, 'rising, centre, Z').textContent()).toMatch(
    /350\.00 mm ±0\.50 mm0\.5[01]if larger$/,
  );
  expect(await rowOf(/per unit/, 'fixed, centre, Z').textContent()).toMatch(/\+1\.00 ± 0\.0\dmm per mm$/);
  expect(
    await table(/^Measure these again/)
      .getByRole('row')
      .count(),
  ).toBeGreaterThan(1);
  await page.getByRole('option', { name: /clear, within measuring error/ }).waitFor();
  await page.getByTestId('sweep-status').getByText('1 within measuring error').waitFor();

  const download = await savedReport(page, 'made');
  const stream = await download.createReadStream();
  const report = Buffer.concat(await stream.toArray()).toString();
  expect(report).toMatch(/1 clear pair is within measuring error: see Measuring error\./);
  expect(report).toMatch(/<td[^>]*>clear, within measuring error<\/td>/);
});
