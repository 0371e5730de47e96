import { expect, it } from 'vitest';
import { setUpCoarse } from '../app/coarse/setUpCoarse.ts';
import { minimalCorner } from '../design/fixtures.ts';
import { onWorkbench } from './onWorkbench.ts';
import { tabTo } from './tabTo.ts';

const CORNER = JSON.stringify(minimalCorner());
const bench = onWorkbench({ corner: CORNER, picture: 'drawn', waitMs: 20_000 });

const legend = () => bench.page.getByRole('region', { name: 'Zones of intended contact' });
const option = (name: string) => bench.page.getByRole('option').filter({ hasText: name }).first();

/** The canvas as bytes, without the legend over it. */
const picture = () => bench.page.locator('.viewer canvas').screenshot();

it('outlines the zones of a pair in the view by keyboard, and lists their sizes', async () => {
  const { page } = bench;
  const { pairs, solids } = await setUpCoarse(CORNER);
  const rows = await page.getByRole('option').allTextContents();
  const joined = pairs.find(({ a, b, zones }) => {
    const name = `${solids[a].label} ↔ ${solids[b].label}`;
    return zones.length > 0 && rows.some((row) => row.includes(name));
  });
  if (joined === undefined) throw new Error('no joined pair has a clearance');
  await option(`${solids[joined.a].label} ↔ ${solids[joined.b].label}`).click();
  const treatment = `easured outside ${joined.zones.length} zone`;
  await page.locator('.pair-zones').filter({ hasText: treatment }).waitFor();
  expect(
    await page
      .getByRole('listbox', { name: 'Pairs by margin' })
      .getByRole('option', { selected: true })
      .textContent(),
  ).toContain(treatment);
  expect(await legend().count()).toBe(0);
  await page.addStyleTag({ content: '.viewer-foot { opacity: 0 }' });
  // Wait until the camera is at rest.
  await page.waitForTimeout(3000);
  const before = await picture();
  const toggle = page.getByRole('button', { name: 'Show zones' });
  await tabTo(toggle);
  await page.keyboard.press('Enter');
  await legend().getByText('diameter').first().waitFor();
  expect(await toggle.getAttribute('aria-pressed')).toBe('true');
  let zoned = before;
  await expect
    .poll(async () => {
      zoned = await picture();
      return zoned.equals(before);
    })
    .toBe(false);
  await page.keyboard.press('Enter');
  await expect.poll(() => legend().count()).toBe(0);
  await expect.poll(async () => (await picture()).equals(zoned)).toBe(false);
});

it('has no zones to show for a pair that is measured everywhere', async () => {
  await option('Tyre').click();
  await bench.page.locator('.pair-zones').filter({ hasText: 'Measured everywhere' }).waitFor();
  expect(await bench.page.getByRole('button', { name: 'Show zones' }).count()).toBe(0);
});

it('lists the pairs that are not checked, with the reason and the checks that cover each', async () => {
  const { page } = bench;
  await page.locator('summary').filter({ hasText: 'not checked' }).click();
  const item = page.locator('.pairs-aside li').filter({ hasText: 'the tyre is mounted on the wheel' });
  expect(await item.textContent()).toMatch(/mounted on the wheel\. Checks of dimensions that cover it: .+\./);
});
