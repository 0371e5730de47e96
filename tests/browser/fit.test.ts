import { expect, it } from 'vitest';
import { signedAngle } from '../../src/report/figures.ts';
import { onWorkbench } from './onWorkbench.ts';
import { turnedCorner } from './turnedCorner.ts';

const file = JSON.stringify(turnedCorner('upperArm', 'hubBolts', 'caliperBolts'));
/** Timeout of a poll while the corner is built again, perhaps on a busy machine. */
const SOON = { timeout: 120_000 };
const bench = onWorkbench({ corner: file });

const now = () => bench.page.getByTestId('fit-now').textContent(SOON);

it('turns a corner that touches as drawn to where it clears, by a candidate and by keys on the map', async () => {
  const { page } = bench;
  await page.getByRole('button', { name: 'Caliper and hub clocking' }).click();
  // A preview, marked as one, until the study is done.
  const preview = page.getByTestId('fit-seen');
  expect(await preview.textContent(SOON)).toMatch(/: seems not clear, not proved yet\.$/);
  expect(await page.locator('.fit-waiting').textContent()).toMatch(
    /^Preview, every 10°: nothing is proved yet\. Computing/,
  );
  expect(await now()).toMatch(/not clear, margin −/);
  expect(await preview.count()).toBe(0);
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
  // The pair list, which the engine measures again, agrees: no pair touches.
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

it('requirements exclude arrangements, and one that cannot be met is explained', async () => {
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
        /^No clocking clears with the caliper on the required side of the axle\.\s+nearest: caliper at .* missing$/,
      ),
    );
  await place.selectOption('');
  await list.waitFor(SOON);
  const margin = page.getByLabel('Least margin');
  await margin.fill('500');
  await margin.press('Enter');
  await expect
    .poll(warnings, SOON)
    .toContainEqual(expect.stringMatching(/^No clocking clears\.\s+nearest: caliper at /));
});

it('shows for each arrangement whether its bolts can be reached', async () => {
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

it('shows which bolts of the corner cannot be reached, and drops the result when the corner is turned', async () => {
  const { page } = bench;
  const check = page.getByRole('button', { name: 'Check bolt access' });
  await check.click();
  const result = page.getByTestId('bolts-result');
  await result.waitFor(SOON);
  expect(await result.textContent()).toMatch(
    /these cannot be reached:.*Hub bolts 1, socket on its head:Plate upright: in the way/,
  );
  await page.getByLabel('Least margin').fill('0');
  await page.getByLabel('Least margin').press('Enter');
  await page.getByRole('button', { name: 'Turn to arrangement 1' }).click(SOON);
  await check.click(SOON);
  await result.waitFor(SOON);
  expect(await result.textContent()).not.toMatch(/Hub bolts 1/);
  await page.keyboard.press('Control+z');
  await check.waitFor(SOON);
});
