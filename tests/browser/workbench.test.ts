import type { Locator } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { pairLabel, poseBrief, signedLeast, travelBrief } from '../../src/app/kit/words.ts';
import { proveInProcess, sweepInProcess } from '../../src/executors/inProcess.ts';
import { findingsOf } from '../../src/findings/findingsOf.ts';
import { limitsOf } from '../../src/proof/limits.ts';
import { figuresIn } from '../../src/report/figures.ts';
import type { SweepResult } from '../../src/sweep/result.ts';
import type { Setup } from '../../src/sweep/setUp.ts';
import { setUpCoarse } from '../app/coarse/setUpCoarse.ts';
import { minimalCorner } from '../design/fixtures.ts';
import { chooseFile, onWorkbench } from './onWorkbench.ts';
import { savedReport } from './savedReport.ts';

/** Bytes that a part adds at least to the screenshot. */
const MANY_BYTES = 1500;

const CORNER = JSON.stringify(minimalCorner());
const bench = onWorkbench({
  results: 'made',
  picture: 'drawn',
  corner: CORNER,
  context: { deviceScaleFactor: 1 },
});
const figures = figuresIn('mm');

let setup: Setup;
let result: SweepResult;
let findings: ReturnType<typeof findingsOf>;

const textOf = async (locator: Locator) => (await locator.textContent()) ?? '';
const slider = (name: string) => bench.page.getByRole('slider', { name, exact: true });
const row = () => bench.page.getByRole('listbox', { name: 'Pairs by margin' }).getByRole('option');

beforeAll(async () => {
  setup = await setUpCoarse(CORNER);
  result = await sweepInProcess(setup);
  const { design, mechanism, travelMm, steer } = setup;
  const limits = limitsOf(design.corner, mechanism, travelMm, steer);
  findings = findingsOf(result, limits, await proveInProcess(setup, result));
});

describe('the workbench', () => {
  it('shows the same counts as the engine outside the browser', async () => {
    const { page } = bench;
    const status = await textOf(page.getByTestId('sweep-status'));
    const joined = findings.pairs.filter(
      ({ state, pair }) => state === 'far' && setup.pairs[pair].zones.length > 0,
    ).length;
    if (joined > 0) expect(status).toContain(`${joined} joined`);
    for (const [state, counted] of Object.entries(findings.counts)) {
      const count = state === 'far' ? counted - joined : counted;
      if (count > 0)
        expect(status).toContain(`${count} ${count > 1 && state === 'touches' ? 'touch' : state}`);
    }
    expect(status).toContain(`${findings.solvedSteps} poses checked`);
  });

  it('lists the pairs by margin with the same figures as the engine', async () => {
    const near = findings.pairs.filter(({ state }) => state !== 'far');
    const rows = await row().allTextContents();
    expect(rows).toHaveLength(near.length);
    expect(near.length).toBeGreaterThan(5);
    for (const [i, { pair, worst, state }] of near.entries()) {
      expect(rows[i]).toContain(pairLabel(setup.solids, setup.pairs[pair]));
      expect(rows[i]).toContain(state);
      if (worst === undefined) continue;
      expect(rows[i]).toContain(figures.least(worst.clearanceMm));
      expect(rows[i]).toContain(`margin ${signedLeast(worst.marginMm, figures)}`);
    }
  });

  it('goes to the tight spot of the chosen pair, between two steps, and draws its dimension', async () => {
    const { page } = bench;
    const at = findings.pairs.findIndex(
      ({ pair, worst, state }) =>
        worst !== undefined &&
        state !== 'touches' &&
        setup.pairs[pair].moves &&
        worst.clearanceMm < setup.settings.limitMm &&
        !result.travelMm.includes(worst.travelMm) &&
        !result.steer.includes(worst.steer),
    );
    const { worst, provenMm } = findings.pairs[at];
    if (worst === undefined || provenMm === undefined) throw new Error('no tight spot lies between steps');
    const chosen = row().nth(at);
    expect(await chosen.getAttribute('title')).toContain(
      `Least found ${figures.withError(worst.clearanceMm, worst.errorMm)} mm. Proven nowhere below ${figures.least(provenMm - worst.errorMm)} mm`,
    );
    await chosen.click();
    const dimension = page.locator('[data-testid=dimension]:not([data-stale])');
    await dimension.waitFor();
    // A single pose and the same pose in a row may differ in the last bits: one unit of the last digit.
    const drawn = Number((await textOf(dimension)).replace(' mm', ''));
    expect(Math.abs(drawn - Number(figures.least(worst.clearanceMm)))).toBeLessThanOrEqual(0.01 + 1e-9);
    const brief = travelBrief(worst.travelMm, figures);
    const spoken = brief === 'ride height' ? brief : `${brief} mm`;
    expect(await slider('Travel').getAttribute('aria-valuetext')).toBe(spoken);
    const pose = poseBrief(setup.design.corner, worst.travelMm, worst.steer, figures);
    expect(await textOf(chosen)).toContain(pose);
    await page.getByRole('region', { name: 'This pose' }).getByRole('heading', { name: pose }).waitFor();
    await page.getByRole('button', { name: 'All pairs' }).click();
  });

  it('keeps the gap of the chosen pair in view as the pose moves, and names the stops', async () => {
    const { page } = bench;
    const at = findings.pairs.findIndex(({ pair, state }) => state === 'clear' && setup.pairs[pair].moves);
    await row().nth(at).click();
    const dimension = page.locator('[data-testid=dimension]:not([data-stale])');
    await dimension.waitFor();
    const picture = await page.locator('.viewer canvas').boundingBox();
    if (picture === null) throw new Error('there is no picture');
    for (const key of ['Home', 'End']) {
      await slider('Travel').focus();
      await page.keyboard.press(key);
      await slider('Steer').focus();
      await page.keyboard.press('Home');
      const notice = page.locator('.pose-notice');
      await notice
        .filter({ hasText: key === 'Home' ? '(full droop, full left lock)' : '(full bump, full left lock)' })
        .waitFor();
      await expect
        .poll(
          async () => {
            const label = await dimension.boundingBox();
            if (label === null) return false;
            const [right, bottom] = [picture.x + picture.width, picture.y + picture.height];
            return (
              label.x > picture.x &&
              label.x + label.width < right &&
              label.y > picture.y &&
              label.y + label.height < bottom
            );
          },
          { timeout: 20_000 },
        )
        .toBe(true);
    }
    await page.getByRole('button', { name: 'All pairs' }).click();
  });

  it('moves the corner by keyboard', async () => {
    const { page } = bench;
    await slider('Travel').focus();
    await page.keyboard.press('End');
    expect(await slider('Travel').getAttribute('aria-valuetext')).toBe('bump +60 mm');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Shift+ArrowDown');
    expect(await slider('Travel').getAttribute('aria-valuenow')).toBe('49');
    await slider('Steer').focus();
    await page.keyboard.press('Home');
    expect(await slider('Steer').getAttribute('aria-valuetext')).toBe('rack +45 mm, to the left');
    await slider('Travel and steer').focus();
    await page.keyboard.press('0');
    expect(await slider('Travel and steer').getAttribute('aria-valuetext')).toMatch(
      /^ride height, straight ahead: /,
    );
  });

  it('moves the corner to the pressed point of the map: left lock at the left, bump at the top', async () => {
    const { page } = bench;
    const box = await slider('Travel and steer').boundingBox();
    if (box === null) throw new Error('the map is not drawn');
    await page.mouse.click(box.x + 2, box.y + 2);
    expect(Number(await slider('Steer').getAttribute('aria-valuenow'))).toBeGreaterThan(44);
    expect(Number(await slider('Travel').getAttribute('aria-valuenow'))).toBeGreaterThan(58);
  });

  it('shows every length in the chosen unit', async () => {
    const { page } = bench;
    await page.getByRole('button', { name: 'in', exact: true }).click();
    await slider('Travel').focus();
    await page.keyboard.press('Home');
    expect(await slider('Travel').getAttribute('aria-valuetext')).toBe('droop −2.38 in');
    expect(await textOf(page.locator('main'))).not.toMatch(/\d mm\b(?! ±)/);
    await page.getByRole('button', { name: 'mm', exact: true }).click();
  });

  it('plays the cycle until it is stopped', async () => {
    const { page } = bench;
    const button = page.getByRole('button', { name: 'Cycle travel and steer' });
    await button.click();
    const before = await slider('Travel').getAttribute('aria-valuenow');
    await page.waitForFunction(
      (was) => document.querySelector('[aria-label=Travel]')?.getAttribute('aria-valuenow') !== was,
      before,
    );
    await button.click();
    expect(await button.getAttribute('aria-pressed')).toBe('false');
  });

  it('shows the problems of a wrong file and keeps the open corner', async () => {
    const { page } = bench;
    const bad = minimalCorner();
    const rotor = bad.parts.find(({ kind }) => kind === 'rotor');
    if (rotor?.kind !== 'rotor') throw new Error('the corner has no rotor');
    rotor.diameter = '12 furlongs';
    await chooseFile(page, 'bad.corner.json', JSON.stringify(bad));
    const dialog = page.getByRole('dialog');
    await dialog.waitFor();
    const text = await textOf(dialog);
    expect(text).toContain(`parts[${bad.parts.indexOf(rotor)}].diameter`);
    expect(text).toContain('12 furlongs');
    expect(text).toContain('Bench corner stays open');
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'hidden' });
    expect(await textOf(page.getByRole('heading', { level: 1 }))).toBe('Bench corner, left side');
  });

  it('saves the clearance report', async () => {
    const { page } = bench;
    const saved = await savedReport(page, 'left out');
    expect(saved.suggestedFilename()).toBe('Bench-corner-clearance.html');
    const html = Buffer.concat(await (await saved.createReadStream()).toArray()).toString();
    expect(html).toMatch(/^<!doctype html>/);
    expect(html).toContain('Bench corner');
  });

  it('draws the corner: hiding a part changes the picture', async () => {
    const { page } = bench;
    const canvas = page.getByLabel('The corner in three dimensions');
    // A screenshot of an empty view has few bytes.
    const bytes = async () => (await canvas.screenshot()).length;
    const eyes = page.locator('.parts-list').getByRole('button', { name: /^Show / });
    const whole = await bytes();
    for (const eye of await eyes.all()) await eye.click();
    const soon = { interval: 300, timeout: 60_000 };
    await expect.poll(bytes, soon).toBeLessThan(whole / 2);
    const bare = await bytes();
    await page.getByRole('button', { name: 'Show upright' }).click();
    await expect.poll(bytes, soon).toBeGreaterThan(bare + MANY_BYTES);
    for (const eye of await eyes.all())
      if ((await eye.getAttribute('aria-pressed')) === 'false') await eye.click();
    await expect.poll(bytes, soon).toBeGreaterThan(whole / 2);
  });

  it.each([
    [1440, 900],
    [1024, 700],
  ])('fits %i by %i without scrolling the page', async (width, height) => {
    const { page } = bench;
    await page.setViewportSize({ width, height });
    const size = await page.evaluate(() => [
      document.documentElement.scrollWidth,
      document.documentElement.scrollHeight,
    ]);
    expect(size).toEqual([width, height]);
    const report = await page.getByRole('button', { name: 'Clearance report' }).boundingBox();
    expect((report?.x ?? 0) + (report?.width ?? 0)).toBeLessThanOrEqual(width);
  });
});
