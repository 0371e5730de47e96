import { expect, it } from 'vitest';
import { trailingCorner } from '../layouts/trailingArm/corner.ts';
import { onWorkbench } from './onWorkbench.ts';

const bench = onWorkbench({ corner: JSON.stringify(trailingCorner()) });

it('opens, sweeps and steers a corner of another layout', async () => {
  const { page } = bench;
  const headings = page.locator('.parts-list').getByRole('heading', { level: 2 });
  expect(await headings.allTextContents()).toEqual([
    'Turns with the wheel',
    'Upright',
    'Trailing arm',
    'Damper',
    'Chassis',
  ]);
  const steer = page.getByRole('slider', { name: 'Steer', exact: true });
  await expect.poll(() => steer.getAttribute('aria-valuemax')).toBe('25');
  await steer.focus();
  await page.keyboard.press('Home');
  await expect
    .poll(() => steer.getAttribute('aria-valuetext'))
    .toMatch(/^kingpin [+−]\d+°, to the (left|right)$/);
  await page
    .getByRole('heading', { name: /kingpin/ })
    .first()
    .waitFor();
});
