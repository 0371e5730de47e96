import { expect, it } from 'vitest';
import { onWorkbench } from './onWorkbench.ts';
import { savedReport } from './savedReport.ts';
import { storedCamera } from './storedCamera.ts';

const bench = onWorkbench({
  context: { deviceScaleFactor: 1, reducedMotion: 'no-preference' },
  demo: 'gravelbeck',
  picture: 'drawn',
  before: (page) =>
    page.addInitScript(() => {
      // A browser without WebGL until the test allows it.
      const get = HTMLCanvasElement.prototype.getContext;
      HTMLCanvasElement.prototype.getContext = function (
        this: HTMLCanvasElement,
        kind: string,
        ...rest: unknown[]
      ) {
        const allowed = !kind.startsWith('webgl') || Object.hasOwn(window, 'graphicsAllowed');
        return allowed ? Reflect.apply(get, this, [kind, ...rest]) : null;
      } as typeof get;
    }),
});

/** Timeout of a poll, perhaps on a busy machine. */
const SOON = { timeout: 30_000 };

const outlines = () => bench.page.getByTestId('outlines');
/** Number of parts drawn in outlines. */
const drawn = () => outlines().locator('.outline > path[d^="M"]').count();
const notice = () => bench.page.locator('.picture-notice');

/** A screenshot of a single colour has far fewer base64 characters. */
const MANY_COLOURS = 4000;

it('works without WebGL: outlines, a pair, its section, the map, a part, a report', async () => {
  const { page } = bench;
  await expect.poll(drawn, SOON).toBeGreaterThan(15);
  expect(await notice().textContent()).toContain('No picture: WebGL 2 is missing or switched off');
  expect(await page.getByRole('button', { name: 'Gap tint' }).isDisabled()).toBe(true);

  const pairs = page.getByRole('listbox', { name: 'Pairs by margin' });
  await pairs.getByRole('option').first().click();
  const dimension = page.locator('[data-testid=dimension]:not([data-stale])');
  await dimension.waitFor();
  const before = await dimension.boundingBox();
  await page.getByRole('button', { name: 'Section', exact: true }).click();
  await expect.poll(() => outlines().locator('.cut-face').count()).toBeGreaterThan(1);
  await page.getByRole('button', { name: 'Section', exact: true }).click();
  await expect.poll(() => outlines().locator('.cut-face').count()).toBe(0);

  // The outlines change with the pose and with the view.
  const wheel = outlines().locator('#outline-wheel');
  const straight = await wheel.getAttribute('d');
  await page.getByRole('slider', { name: 'Steer', exact: true }).press('End');
  await expect.poll(() => wheel.getAttribute('d'), SOON).not.toBe(straight);
  await page.getByRole('button', { name: 'Top', exact: true }).click();
  await expect.poll(() => dimension.boundingBox(), SOON).not.toEqual(before);

  await page
    .getByRole('button', { name: /^Rotor/ })
    .first()
    .click();
  await page.locator('.sheet-head').waitFor();
  expect(await outlines().locator('.outline[data-chosen=true]').count()).toBe(1);
  await page.getByRole('button', { name: 'Parts list' }).click();
  const saved = await savedReport(page, 'left out');
  expect(saved.suggestedFilename()).toMatch(/\.html$/);
});

it('draws the picture when a new try succeeds, and after a lost context is restored', async () => {
  const { page } = bench;
  await page.evaluate(() => Object.assign(window, { graphicsAllowed: true }));
  await notice().getByRole('button', { name: 'Try again' }).click();
  await notice().waitFor({ state: 'detached' });
  expect(await outlines().count()).toBe(0);
  const canvas = page.locator('.viewer canvas');
  await canvas.waitFor();
  await page.getByRole('button', { name: 'Rear', exact: true }).click();
  const camera = () => storedCamera(page);
  /** Screenshot of the middle of the view. */
  const picture = async () => {
    const { width, height, x, y } = (await canvas.boundingBox()) ?? { width: 0, height: 0, x: 0, y: 0 };
    const clip = { x: x + width / 2 - 80, y: y + height / 2 - 80, width: 160, height: 160 };
    return (await page.screenshot({ clip })).toString('base64');
  };
  const colours = async () => (await picture()).length;
  await expect.poll(colours, SOON).toBeGreaterThan(MANY_COLOURS);
  await expect.poll(async () => (await camera())?.eye[0], SOON).toBeLessThan(-0.999);
  const before = await camera();
  await canvas.evaluate((element: HTMLCanvasElement) => {
    const lose = element.getContext('webgl2')?.getExtension('WEBGL_lose_context');
    Object.assign(window, { lose });
    lose?.loseContext();
  });
  await notice().waitFor();
  expect(await notice().textContent()).toContain('The graphics card dropped the picture');
  await expect.poll(drawn, SOON).toBeGreaterThan(15);
  await page.evaluate(() => (window as unknown as { lose: WEBGL_lose_context }).lose.restoreContext());
  await notice().waitFor({ state: 'detached' });
  expect(await outlines().count()).toBe(0);
  await expect.poll(colours, SOON).toBeGreaterThan(MANY_COLOURS);
  // The camera is unchanged.
  expect(await camera()).toEqual(before);
});
