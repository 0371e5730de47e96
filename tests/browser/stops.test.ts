import { expect, it } from 'vitest';
import { box, boxCorner } from '../studies/vary/boxCorner.ts';
import { onWorkbench } from './onWorkbench.ts';

/** The block rises without turning, 5 mm into the fixed one at full bump; the target is 3 mm: bump must be 8 mm less. */
const CORNER = boxCorner(
  [
    box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
    box('fixed', 'chassis', [0, 640, 430], [90, 90, 20]),
  ],
  { name: 'Two blocks', unit: 'mm', pairs: [{ between: ['rising', 'fixed'], target: 3 }] },
);
const bench = onWorkbench({ corner: JSON.stringify(CORNER) });
const SOON = { timeout: 120_000 };

it('finds the stops, and applies one as one change that can be undone', async () => {
  const { page } = bench;
  await page.getByRole('button', { name: 'Travel, lock and stops' }).click();
  await page.getByRole('button', { name: 'Find stops' }).click();
  const stops = page.getByTestId('stops');
  await stops.getByText(/^Over \d+\.\d % of travel × rack, every margin is kept/).waitFor(SOON);
  await stops.getByText('No steering stop alone clears: something fails straight ahead too.').waitFor();
  await page.locator('.map-usable').waitFor({ state: 'attached' });
  const key = page.getByLabel('Key to the map');
  await key.getByText('usable part, ends at').waitFor();
  await key.getByText('1 rising ↔ fixed').waitFor();
  expect(await page.locator('.map-number').allTextContents()).toEqual(['1']);
  const travel = stops.getByRole('group', { name: /^Bump and droop stops, clear at all lock/ });
  expect(await travel.textContent()).toMatch(/Bump less by [89](\.\d+)? mm\./);
  await travel.getByRole('button', { name: 'Apply' }).click();
  await page.getByText('The corner has changed since stops were found.').waitFor();
  await page.locator('.pair-list').getByText('clear').waitFor(SOON);
  expect(await page.locator('.map-usable').count()).toBe(0);
  await page.keyboard.press('Control+z');
  await page.locator('.pair-list').getByText('touches').waitFor(SOON);
});

it('lists the alignment over travel and saves it as CSV', async () => {
  const { page } = bench;
  const alignment = page.getByRole('region', { name: 'Alignment over travel and steering' });
  await alignment.getByText('Alignment over travel, straight ahead').click();
  const table = alignment.getByRole('region', { name: 'Alignment over travel, straight ahead' });
  expect(await table.getByRole('columnheader').allTextContents()).toEqual(
    expect.arrayContaining([expect.stringMatching(/^Camber/), expect.stringMatching(/^Half track/)]),
  );
  await alignment
    .getByRole('img', { name: /^Camber, °: / })
    .first()
    .waitFor();
  const download = page.waitForEvent('download');
  await alignment.getByRole('button', { name: 'Save as CSV' }).click();
  const stream = await (await download).createReadStream();
  const lines = Buffer.concat(await stream.toArray())
    .toString()
    .trim()
    .split(/\r?\n/);
  expect(lines.length).toBeGreaterThan(5);
  // Titles have commas of their own.
  expect(new Set(lines.slice(1).map((line) => line.split(',').length)).size).toBe(1);
});
