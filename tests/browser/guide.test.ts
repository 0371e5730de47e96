import AxeBuilder from '@axe-core/playwright';
import { expect, it } from 'vitest';
import { onWorkbench } from './onWorkbench.ts';

const bench = onWorkbench({ until: async () => {} });

it('opens the guide from the header in a new tab, and goes from chapter to chapter', async () => {
  const { page } = bench;
  const faults: string[] = [];
  const missing: string[] = [];
  page.context().on('page', (opened) => {
    opened.on('pageerror', (error) => faults.push(error.message));
    opened.on('console', (message) => {
      if (message.type() === 'error') faults.push(message.text());
    });
    opened.on('response', (response) => {
      if (response.status() >= 400) missing.push(response.url());
    });
  });
  const [guide] = await Promise.all([
    page.waitForEvent('popup'),
    page.getByRole('link', { name: 'Guide' }).click(),
  ]);
  const heading = guide.getByRole('heading', { level: 1 });
  await heading.filter({ hasText: 'Daylight guide' }).waitFor();

  await guide.getByRole('main').getByRole('link', { name: 'Find the hit' }).first().click();
  await heading.filter({ hasText: 'Find the hit' }).waitFor();
  expect(await guide.getByRole('navigation').locator('[aria-current=page]').textContent()).toBe(
    'Find the hit',
  );
  await guide.waitForFunction(() => [...document.images].every((image) => image.naturalWidth > 0));
  expect(await guide.getByRole('img').count()).toBeGreaterThan(2);
  const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  expect(await guide.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe(paper);

  await guide.locator('.next').getByRole('link').click();
  await heading.filter({ hasText: 'Fix it' }).waitFor();
  await guide.getByRole('link', { name: 'vary', exact: true }).click();
  await heading.filter({ hasText: 'Command line' }).waitFor();
  expect(new URL(guide.url()).hash).toBe('#vary');
  const { violations } = await new AxeBuilder({ page: guide }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).toEqual([]);
  await guide.getByRole('main').getByRole('link', { name: 'format of the result files' }).click();
  await heading.filter({ hasText: 'Result files' }).waitFor();
  expect([...faults, ...missing]).toEqual([]);
});
