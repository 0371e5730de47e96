import { unzipSync } from 'fflate';
import { expect, it } from 'vitest';
import { minimalCorner } from '../design/fixtures.ts';
import { readDxf } from '../report/templates/readDxf.ts';
import { readPdf } from '../report/templates/readPdf.ts';
import { onWorkbench } from './onWorkbench.ts';
import { tabTo } from './tabTo.ts';

const bench = onWorkbench({ corner: JSON.stringify(minimalCorner()), waitMs: 60_000 });

it('shows each flat plate, warns by the cutting process, and saves the files that the engine makes', async () => {
  const { page } = bench;
  await page.getByRole('button', { name: 'Templates', exact: true }).click();
  const sheet = page.getByRole('region', { name: 'Templates, bench sheet' });
  const preview = sheet.getByRole('img', { name: 'Template of upright: hub pad and legs' });
  const plate = sheet.getByLabel('Plate', { exact: true });
  await plate.selectOption('upright.pad');
  await preview.waitFor();
  await expect
    .poll(() => preview.evaluate((image: HTMLImageElement) => image.naturalWidth))
    .toBeGreaterThan(100);
  await sheet.getByText('The bend radius of the upper leg is unknown.', { exact: false }).waitFor();

  // By keyboard: the process, and a wrong length, which no file is made with.
  await tabTo(sheet.getByLabel('Cut by'));
  await page.keyboard.press('p');
  await sheet.getByText(/^Warning: Hole 1: 12\.00 mm across is too small for plasma/).waitFor();
  const radius = sheet.getByLabel('Bend radius');
  await radius.fill('200');
  await sheet.getByText('Bend radius must be from 0 to 100 mm').waitFor();
  expect(await sheet.getByRole('button', { name: 'Save this plate' }).isDisabled()).toBe(true);
  await radius.fill('12');
  await sheet.getByText('Bend of the upper leg: inside radius 12.00 mm', { exact: false }).waitFor();

  const downloaded = page.waitForEvent('download');
  await tabTo(sheet.getByRole('button', { name: /^Save all/ }));
  await page.keyboard.press('Enter');
  const download = await downloaded;
  expect(download.suggestedFilename()).toBe('bench-templates.zip');
  const files = unzipSync(Buffer.concat(await (await download.createReadStream()).toArray()));
  const names = ['caliper.bracket', 'upright.pad', 'upright.steeringArm'].flatMap((id) =>
    ['dxf', 'pdf', 'r12.dxf', 'svg'].map((ending) => `${id}.${ending}`),
  );
  expect(Object.keys(files).toSorted()).toEqual(names);
  const read = readDxf(new TextDecoder().decode(files['upright.pad.dxf']));
  expect(read.header.$INSUNITS).toBe(4);
  expect(read.circlesOn('CUT')).toEqual([expect.objectContaining({ r: 40 })]);
  const [first] = await readPdf(files['upright.pad.pdf']);
  expect([first.width, first.height].map((points) => (points * 25.4) / 72)).toEqual([
    expect.closeTo(210, 3),
    expect.closeTo(297, 3),
  ]);
  await sheet.getByText('Saved: bench-templates.zip').waitFor();
});
