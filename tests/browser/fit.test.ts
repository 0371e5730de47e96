import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { signedAngle } from '../../src/report/figures.ts';
import { onWorkbench } from './onWorkbench.ts';

const file = readFileSync(new URL('../../demo-data/stoneyholt.corner.json', import.meta.url), 'utf8');
/** For a poll: the corner is built anew meanwhile, perhaps on a busy machine. */
const SOON = { timeout: 120_000 };
const bench = onWorkbench({ corner: file });

const now = () => bench.page.getByTestId('fit-now').textContent(SOON);

it('a corner that fouls as drawn is turned to where all clears, by the map, by keys and by a candidate', async () => {
  const { page } = bench;
  await page.getByRole('button', { name: 'Fit at the wheel' }).click();
  // A first look, which says what it is, until the study is done.
  const seen = page.getByTestId('fit-seen');
  expect(await seen.textContent(SOON)).toMatch(/: seems not clear, not proved yet\.$/);
  expect(await page.locator('.fit-waiting').textContent()).toMatch(
    /^First look, every 10°: nothing is proved yet\. Studying/,
  );
  expect(await now()).toMatch(/not clear, margin −/);
  expect(await seen.count()).toBe(0);
  const drawn = await now();
  const map = page.getByRole('slider', { name: 'Clocking of caliper and hub' });
  expect(await map.getAttribute('aria-valuetext')).toMatch(/: not clear, margin −/);

  await page.getByRole('button', { name: 'Turn to arrangement 1' }).click();
  await expect.poll(now, SOON).toMatch(/: clear, margin /);
  const candidate = await page
    .getByRole('list', { name: 'Best arrangements' })
    .locator('b')
    .first()
    .textContent();
  expect(await now()).toContain(candidate ?? '?');
  // The list of pairs, which the engine measures anew, agrees: what fouled is no longer first.
  const worst = page.getByRole('listbox', { name: 'Pairs by margin' }).getByRole('option').first();
  await expect.poll(() => worst.getAttribute('data-state'), SOON).not.toBe('touches');

  await map.focus();
  await page.keyboard.press('ArrowRight');
  const [, caliper] = /^caliper at ([+−]?[\d.]+)°/.exec(candidate ?? '') ?? [];
  const turned = Number(caliper.replace('−', '-')) + 1;
  await expect.poll(now, SOON).toContain(`caliper at ${signedAngle(turned)}`);
  await page.keyboard.press('Control+z');
  await expect.poll(now, SOON).toContain(candidate ?? '?');
  await page.keyboard.press('Control+z');
  await expect.poll(now, SOON).toBe(drawn);
});

it('wants leave out what they do not allow, and say what forbids one that cannot be had', async () => {
  const { page } = bench;
  const list = page.getByRole('list', { name: 'Best arrangements' });
  const warnings = () => page.locator('.bench-sheet .warning').allTextContents();
  const place = page.getByLabel('Caliper', { exact: true });
  await place.selectOption('behind');
  await list.waitFor(SOON);
  expect(await list.textContent()).toMatch(/behind the axle/);
  expect(await list.textContent()).not.toMatch(/ahead of the axle/);
  await place.selectOption('ahead');
  await expect
    .poll(warnings, SOON)
    .toContainEqual(
      expect.stringMatching(
        /^No clocking has the caliper on the wanted side of the axle\.\s+least is missing with caliper at .* missing$/,
      ),
    );
  await place.selectOption('');
  await list.waitFor(SOON);
  const margin = page.getByLabel('Least margin');
  await margin.fill('500');
  await margin.press('Enter');
  await expect
    .poll(warnings, SOON)
    .toContainEqual(
      expect.stringMatching(/^No clocking at all clears\.\s+least is missing with caliper at /),
    );
});

it('says of each arrangement whether its bolts can be reached', async () => {
  const { page } = bench;
  const margin = page.getByLabel('Least margin');
  await margin.fill('0');
  await margin.press('Enter');
  const list = page.getByRole('list', { name: 'Best arrangements' });
  await expect.poll(() => list.textContent(), SOON).toMatch(/bolts: all reached/);
  const items = await list.getByRole('listitem').allTextContents();
  expect(items.length).toBeGreaterThan(1);
  for (const item of items) expect(item).toMatch(/bolts: (all reached|\d+ not reached|\d+ unknown)/);
});

it('says which bolts cannot be reached as the corner stands, and forgets it when the corner is turned', async () => {
  const { page } = bench;
  const ask = page.getByRole('button', { name: "Check every bolt's way out and tool" });
  await ask.click();
  const told = page.getByTestId('bolts-told');
  await told.waitFor(SOON);
  expect(await told.textContent()).toMatch(
    /these cannot be reached:.*Hub bolts 1, socket on its head:Plate upright: in the way/,
  );
  await page.getByLabel('Least margin').fill('0');
  await page.getByLabel('Least margin').press('Enter');
  await page.getByRole('button', { name: 'Turn to arrangement 1' }).click(SOON);
  await ask.click(SOON);
  await told.waitFor(SOON);
  expect(await told.textContent()).not.toMatch(/Hub bolts 1/);
  await page.keyboard.press('Control+z');
  await ask.waitFor(SOON);
});
