import { beforeAll, describe, expect, it } from 'vitest';
import { pairLabel } from '../../src/app/kit/words.ts';
import type { OpenCorner } from '../../src/app/state/engine.ts';
import { type MeasuredPair, measuredPair } from '../../src/app/state/measuredPair.ts';
import { clearanceText } from '../../src/app/tools/hold/clearanceText.ts';
import { figuresIn } from '../../src/report/figures.ts';
import { RowSweeper } from '../../src/sweep/row.ts';
import type { Setup } from '../../src/sweep/setUp.ts';
import { setUpCoarse } from '../app/coarse/setUpCoarse.ts';
import { minimalCorner } from '../design/fixtures.ts';
import { chooseFile, onWorkbench, swept } from './onWorkbench.ts';

const bench = onWorkbench({ corner: JSON.stringify(minimalCorner()) });
const figures = figuresIn('mm');
/** Rack travel of that corner to either lock, mm. */
const LOCK_MM = 45;

let setup: Setup;

const slider = (name: string) => bench.page.getByRole('slider', { name, exact: true });
const button = (name: string) => bench.page.getByRole('button', { name, exact: true });
const rows = () => bench.page.getByRole('region', { name: 'Held poses' }).getByRole('row');
const cells = async (row: string) => {
  const one = rows().filter({ has: bench.page.getByRole('rowheader', { name: row, exact: true }) });
  return one.getByRole('cell').allTextContents();
};

const setUpOf = (corner: unknown) => setUpCoarse(JSON.stringify(corner));

/** The upright and the tie rod at a pose, as the engine measures them outside the browser. */
function engineAt(of: Setup, travelMm: number, rackMm: number): MeasuredPair {
  const row = new RowSweeper(of).sweep(travelMm, Float64Array.of(rackMm / LOCK_MM));
  const pair = pairIndex(of);
  const found = measuredPair(of as unknown as OpenCorner, { travelMm, steer: rackMm / LOCK_MM, row }, pair);
  if (found === undefined) throw new Error('the pose cannot be measured');
  return found;
}

const pairIndex = ({ pairs, solids }: Setup) =>
  pairs.findIndex(({ a, b }) => solids[a].id === 'upright' && solids[b].id === 'tieRod');

beforeAll(async () => {
  setup = await setUpOf(minimalCorner());
});

describe('held poses', () => {
  it('show what the engine measures at each pose, by mouse', async () => {
    const { page } = bench;
    const label = pairLabel(setup.solids, setup.pairs[pairIndex(setup)]);
    await page
      .getByRole('option')
      .filter({ has: page.getByText(label, { exact: true }) })
      .click();
    await slider('Steer').focus();
    await page.keyboard.press('0');
    await slider('Travel').focus();
    await page.keyboard.press('End');
    await page.keyboard.press('Shift+ArrowDown');
    await button('Hold this pose').click();
    expect(await button('Hold this pose').getAttribute('aria-disabled')).toBe('true');
    const travel = Number(await slider('Travel').getAttribute('aria-valuenow'));
    expect(setup.travelMm.includes(travel)).toBe(false);

    await slider('Travel').focus();
    for (let k = 0; k < 3; k++) await page.keyboard.press('Shift+ArrowDown');
    const now = Number(await slider('Travel').getAttribute('aria-valuenow'));
    expect(now).toBeLessThan(travel);
    const [held, here] = [engineAt(setup, travel, 0), engineAt(setup, now, 0)];
    expect(Number.isFinite(held.clearanceMm) && Number.isFinite(here.clearanceMm)).toBe(true);
    await expect
      .poll(async () => (await cells('A'))[1], { timeout: 15_000 })
      .toContain(clearanceText(held, figures));
    await expect
      .poll(async () => (await cells('Now'))[1], { timeout: 15_000 })
      .toContain(clearanceText(here, figures));
    const [difference, error] = ((await cells('A'))[2] ?? '').replace('−', '-').split(' ± ').map(Number);
    expect(Math.abs(difference - (here.clearanceMm - held.clearanceMm))).toBeLessThanOrEqual(0.01);
    expect(error).toBeGreaterThanOrEqual(held.errorMm + here.errorMm - 1e-9);

    await button('Go to held pose A').click();
    expect(Number(await slider('Travel').getAttribute('aria-valuenow'))).toBe(travel);
    await expect.poll(async () => (await cells('A'))[2], { timeout: 15_000 }).toMatch(/^0\.00 ± /);
  });

  it('are measured again when the corner changes', async () => {
    const { page } = bench;
    const changed = minimalCorner();
    const rod = changed.parts.find(({ kind }) => kind === 'tieRod');
    if (rod?.kind !== 'tieRod') throw new Error('the corner has no tie rod');
    rod.tubeDiameter = 34;
    const other = await setUpOf(changed);
    const travel = Number(await slider('Travel').getAttribute('aria-valuenow'));
    const [before, after] = [engineAt(setup, travel, 0), engineAt(other, travel, 0)];
    expect(Math.abs(after.clearanceMm - before.clearanceMm)).toBeGreaterThan(1);
    await page
      .locator('.parts-list')
      .getByRole('button', { name: /^tieRod tube/ })
      .click();
    await page.getByLabel('Tube diameter', { exact: true }).fill('34');
    await page.keyboard.press('Enter');
    await expect
      .poll(async () => (await cells('A'))[1], { timeout: 60_000 })
      .toContain(clearanceText(after, figures));
    await page.keyboard.press('Control+z');
    await expect
      .poll(async () => (await cells('A'))[1], { timeout: 60_000 })
      .toContain(clearanceText(before, figures));
  });

  it('are added, visited and removed by keyboard', async () => {
    const { page } = bench;
    await swept(page);
    await slider('Steer').focus();
    for (let k = 0; k < 5; k++) await page.keyboard.press('ArrowRight');
    await button('Hold this pose').focus();
    await page.keyboard.press('Enter');
    // The focus stays on the button that was pressed.
    await page.keyboard.press('Shift+Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Section');
    const held = engineAt(setup, Number(await slider('Travel').getAttribute('aria-valuenow')), -5);
    await expect
      .poll(async () => (await cells('B'))[1], { timeout: 15_000 })
      .toContain(clearanceText(held, figures));
    await button('Go to held pose A').focus();
    await page.keyboard.press('Enter');
    expect(Number(await slider('Steer').getAttribute('aria-valuenow'))).toBe(0);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect(await rows().count()).toBe(3);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Hold this pose');
    await button('Remove held pose B').focus();
    await page.keyboard.press('Enter');
    expect(await page.getByRole('region', { name: 'Held poses' }).count()).toBe(0);
  });

  it('are removed when another file is opened', async () => {
    const { page } = bench;
    await button('Hold this pose').click();
    await page.getByRole('region', { name: 'Held poses' }).waitFor();
    await chooseFile(page, 'other.corner.json', JSON.stringify({ ...minimalCorner(), name: 'Other corner' }));
    await page.getByRole('heading', { name: 'Other corner, left side' }).waitFor({ timeout: 60_000 });
    expect(await page.getByRole('region', { name: 'Held poses' }).count()).toBe(0);
  });
});
