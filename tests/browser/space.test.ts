import { expect, it } from 'vitest';
import { onWorkbench } from './onWorkbench.ts';

const bench = onWorkbench({ demo: 'larkrise.corner' });
const SOON = { timeout: 120_000 };

it('computes the space of tyre and wheel, reports a plane, shows it, and saves it', async () => {
  const { page } = bench;
  await page.getByRole('button', { name: 'Space of tyre and wheel' }).click();
  await page.getByLabel('Accuracy').fill('2 in in');
  await page.getByText(/"2 in in" is not a length/).waitFor();
  expect(await page.getByRole('button', { name: 'Compute space' }).isDisabled()).toBe(true);
  await page.getByLabel('Accuracy').fill('60 mm');
  await page.getByRole('textbox', { name: 'Travel' }).fill('30..-20');
  await page.getByText(/"30\.\.-20" is not allowed\. Give two lengths/).waitFor();
  await page.getByRole('textbox', { name: 'Travel' }).fill('-20mm..30mm');
  await page.getByRole('textbox', { name: 'Steer' }).fill('-2..1');
  await page.getByText(/"-2\.\.1" is not allowed\. Give two numbers from -1 to 1/).waitFor();
  expect(await page.getByRole('button', { name: 'Compute space' }).isDisabled()).toBe(true);
  await page.getByRole('textbox', { name: 'Steer' }).fill('-0.5..1');
  await page.getByLabel('Keep free').fill('5 mm');
  await page.getByLabel('Planes').fill('z=100 mm; z=3000 mm');
  await page.getByRole('button', { name: 'Compute space' }).click();
  const space = page.getByTestId('space');
  await space.getByText(/^Size along X, Y, Z: /).waitFor(SOON);
  await space.getByText(/^Tyre and wheel over travel .* and steer −0\.50 to 1\.00 of lock/).waitFor();
  await space.getByText(/^Plane z=100 mm: crossed by /).waitFor();
  await space.getByText(/^Plane z=3000 mm: not crossed; /).waitFor();
  const [stl] = await Promise.all([
    page.waitForEvent('download'),
    space.getByRole('button', { name: 'Save as STL' }).click(),
  ]);
  const bytes = Buffer.concat(await (await stl.createReadStream()).toArray());
  // A binary STL file has 84 bytes, and 50 for each triangle.
  expect(bytes.length).toBe(84 + 50 * bytes.readUInt32LE(80));
  expect(bytes.readUInt32LE(80)).toBeGreaterThan(1000);
  const [dxf] = await Promise.all([
    page.waitForEvent('download'),
    space.getByRole('button', { name: 'Save sections as DXF' }).click(),
  ]);
  expect(dxf.suggestedFilename()).toBe('section-1.dxf');
  const show = space.getByRole('button', { name: 'Show in the view' });
  expect(await show.getAttribute('aria-pressed')).toBe('true');
  await show.click();
  expect(await show.getAttribute('aria-pressed')).toBe('false');
});

it('ends a computation at once when it is cancelled', async () => {
  const { page } = bench;
  await page.getByLabel('Accuracy').fill('2 mm');
  await page.getByRole('button', { name: 'Compute space' }).click();
  await page.getByRole('button', { name: 'Cancel' }).click();
  await page
    .getByText(/[Cc]ancelled/)
    .first()
    .waitFor();
  expect(await page.getByRole('button', { name: 'Compute space' }).isEnabled()).toBe(true);
});
