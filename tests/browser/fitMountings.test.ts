import { expect, it } from 'vitest';
import { onWorkbench } from './onWorkbench.ts';
import { turnedCorner } from './turnedCorner.ts';

/** Timeout of a poll while the corner is built or studied again, perhaps on a busy machine. */
const SOON = { timeout: 120_000 };
const bench = onWorkbench({ corner: JSON.stringify(turnedCorner()), waitMs: 120_000 });

const now = () => bench.page.getByTestId('fit-now').textContent();
const list = () => bench.page.getByRole('list', { name: 'Best arrangements' });
const listed = () => list().textContent();

it('studies all mountings at once, and a candidate applies mounting and clocking as one change', async () => {
  const { page } = bench;
  await page.getByRole('button', { name: 'Caliper and hub clocking' }).click();
  const drawn = await now();
  expect(await listed()).not.toMatch(/mounted:/);
  await page.getByLabel('Mounting', { exact: true }).selectOption({ label: 'all mountings' });
  await expect.poll(listed, SOON).toMatch(/mounted: caliper mirrored/);
  expect(await listed()).toMatch(/mounted: as drawn/);
  // The map shows the current corner or another mounting.
  expect(await now()).toBe(drawn);
  await page.getByLabel('Map of').selectOption({ label: 'caliper mirrored' });
  expect(await now()).toMatch(/^Caliper mirrored, caliper at \+48\.0°, hub at 0\.0°: /);

  const mirrored = list().getByRole('listitem').filter({ hasText: 'mounted: caliper mirrored' }).first();
  const turn = mirrored.getByRole('button');
  const [name = '?'] = /^Turn to arrangement \d+:/.exec((await turn.textContent()) ?? '') ?? [];
  const clockings = await mirrored.locator('b').textContent();
  await turn.click();
  // The candidate is now the corner as drawn, and the map shows it.
  await expect.poll(now, SOON).toContain(`As drawn, ${clockings}: clear`);
  await expect.poll(() => page.getByRole('button', { name }).textContent()).toMatch(/as drawn/);
  await page.getByRole('button', { name: /^Changes/ }).click();
  const change = page.getByText(`Mounted: caliper mirrored; turned: ${clockings}`);
  await change.first().waitFor();
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+z');
  await expect.poll(now, SOON).toMatch(/^Caliper mirrored, caliper at \+48\.0°/);
  await page.getByLabel('Map of').selectOption({ label: 'as drawn' });
  await expect.poll(now, SOON).toBe(drawn);
  await page.getByLabel('Mounting', { exact: true }).selectOption({ label: 'as drawn' });
  await expect.poll(listed, SOON).not.toMatch(/mounted:/);
});

it('takes ranges of clocking as typed or stepped by keys, and rejects wrong ones with a message', async () => {
  const { page } = bench;
  await page.getByText('Ranges and plates').click();
  const [from, to] = ['from', 'to'].map((end) => page.getByLabel(`Caliper clocking, ${end}, degrees`));
  const problem = page.locator('.fit-range .bench-problem');
  await from.fill('60');
  await to.fill('x');
  await to.press('Enter');
  expect(await problem.textContent()).toBe('"x" is not an angle: write degrees, such as 12.5');
  expect(await to.getAttribute('aria-invalid')).toBe('true');
  await to.fill('64');
  await to.press('Enter');
  await expect.poll(() => problem.count()).toBe(0);
  await to.press('Shift+ArrowUp');
  expect(await to.inputValue()).toBe('74°');
  const inRange = async () =>
    (await list().locator('b').allTextContents()).map((text) => Number(/\+([\d.]+)°/.exec(text)?.[1]));
  await expect.poll(async () => (await inRange()).every((deg) => deg >= 60 && deg <= 74), SOON).toBe(true);
  await from.fill('');
  await to.fill('');
  await to.press('Enter');
  await list().waitFor();
  const margin = page.getByLabel('Least margin');
  await margin.fill('-1');
  await margin.press('Enter');
  expect(await page.locator('.value-problem').textContent()).toBe('must be 0 or more');
  await margin.press('Escape');
});

it('reports a plate that is between the bolts at every clocking', async () => {
  const { page } = bench;
  const box = page.getByRole('checkbox', { name: 'All hub bolts on one side of upper leg' });
  await box.check();
  await page
    .getByText('No clocking has the bolts of the hub all on one side of the upper leg, clear or not.')
    .waitFor();
  expect(await list().count()).toBe(0);
  await box.uncheck();
  await list().waitFor();
});

it('sweeps the candidates on request and ranks them again; other requirements drop the result', async () => {
  const { page } = bench;
  const sweep = page.getByRole('button', { name: 'Sweep the arrangements' });
  await sweep.click();
  await page.getByRole('progressbar', { name: 'Arrangements swept' }).waitFor();
  await page.getByRole('button', { name: 'Cancel', exact: true }).last().click();
  await page.getByText('Cancelled. Ranked by margin at ride height.').waitFor();
  expect(await listed()).not.toMatch(/over travel and lock/);
  await sweep.click();
  await page.getByText('Ranked by worst margin over all travel and lock.').waitFor();
  const rows = await list().getByRole('listitem').allTextContents();
  const worst = rows.map((row) => {
    const [, touches, margin, error, , least] =
      /worst over travel and lock (touches: )?([+−]?[\d.]+) ± ([\d.]+) mm(, nowhere below (−?[\d.]+))?, .+ ↔ /.exec(
        row,
      ) ?? [];
    expect(margin, row).toBeDefined();
    if (touches !== undefined) return Number.NEGATIVE_INFINITY;
    const number = (text: string) => Number(text.replace('−', '-'));
    return least === undefined ? number(margin) - number(error) : number(least);
  });
  expect(worst.length).toBeGreaterThan(1);
  expect(worst).toEqual(worst.toSorted((a, b) => b - a));
  // A turn keeps the study; other requirements start a new one.
  await page.getByRole('button', { name: 'Turn to arrangement 1' }).click();
  await expect.poll(now, SOON).toMatch(/: clear/);
  expect(await listed()).toMatch(/over travel and lock/);
  await page.getByLabel('Caliper', { exact: true }).selectOption('behind');
  await expect.poll(listed, SOON).not.toMatch(/over travel and lock/);
  await page.getByText('Ranked by margin at ride height.', { exact: true }).waitFor();
});
