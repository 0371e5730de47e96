import type { CDPSession, Locator } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { onWorkbench } from './onWorkbench.ts';
import { storedCamera } from './storedCamera.ts';

const bench = onWorkbench({
  demo: 'gravelbeck',
  context: { viewport: { width: 1024, height: 700 }, hasTouch: true },
  waitMs: 20_000,
});
let fingers: CDPSession;

beforeAll(async () => {
  fingers = await bench.page.context().newCDPSession(bench.page);
});

type Place = readonly [x: number, y: number];

const MOVES = 8;
const MOVE_S = 0.008;

/** A flick with one finger: its timestamps span less than 0.1 s, however long the page takes to handle it. */
async function drag([x0, y0]: Place, [x1, y1]: Place): Promise<void> {
  const up = Date.now() / 1000;
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', k: number) => {
    const at = { x: x0 + ((x1 - x0) * k) / MOVES, y: y0 + ((y1 - y0) * k) / MOVES };
    const timestamp = up - (MOVES - k) * MOVE_S;
    const touchPoints = type === 'touchEnd' ? [] : [at];
    return fingers.send('Input.dispatchTouchEvent', { type, touchPoints, timestamp });
  };
  await touch('touchStart', 0);
  for (let k = 1; k <= MOVES; k++) await touch('touchMove', k);
  await touch('touchEnd', MOVES);
}

/** The point at these fractions of an element's width and height. */
async function within(element: Locator, across: number, down: number): Promise<Place> {
  const box = await element.boundingBox();
  if (box === null) throw new Error('it is not drawn');
  return [box.x + across * box.width, box.y + down * box.height];
}

async function dragWithin(element: Locator, from: Place, to: Place): Promise<void> {
  await drag(await within(element, ...from), await within(element, ...to));
}

const slider = (name: string) => bench.page.getByRole('slider', { name, exact: true });
const travel = () => slider('Travel');
const now = async (one: Locator) => Number(await one.getAttribute('aria-valuenow'));
const end = async (one: Locator, which: 'min' | 'max') =>
  Number(await one.getAttribute(`aria-value${which}`));
const map = () => slider('Travel and steer');
const chart = () => bench.page.getByRole('region', { name: 'Clearance against travel' }).getByRole('img');
const view = () => bench.page.getByLabel('The corner in three dimensions').locator('canvas');
const pair = (text: string) => bench.page.getByRole('option').filter({ hasText: text }).last();
const button = (name: string) => bench.page.getByRole('button', { name, exact: true });
const sheet = (name: string) => bench.page.locator('.sheet-head').getByRole('heading', { name });
const isChosen = (one: Locator) => one.getAttribute('aria-selected');

describe('by touch alone', () => {
  it('the travel rule follows the finger and stays where it is released', async () => {
    await dragWithin(travel(), [0.5, 0.5], [0.5, 0]);
    expect(await now(travel())).toBe(await end(travel(), 'max'));
    await dragWithin(travel(), [0.5, 0.1], [0.5, 0.75]);
    const low = await now(travel());
    expect(low).toBeLessThan(0);
    expect(low).toBeGreaterThan(await end(travel(), 'min'));
    await dragWithin(travel(), [0.5, 0.75], [0.5, 0.5]);
    // The middle of the rule: bump is shorter than droop.
    const middle = ((await end(travel(), 'min')) + (await end(travel(), 'max'))) / 2;
    expect(middle).toBeLessThan(0);
    expect(await now(travel())).toBeCloseTo(middle, 6);
  });

  it('the map sets travel and steer together', async () => {
    await dragWithin(map(), [0.5, 0.5], [0.02, 1]);
    expect(await now(travel())).toBe(await end(travel(), 'min'));
    // Left lock is at the left of the map.
    expect(await now(slider('Steer'))).toBeGreaterThan(0.9 * (await end(slider('Steer'), 'max')));
    await dragWithin(map(), [0.02, 1], [0.5, 0.5]);
    expect(Math.abs(await now(slider('Steer')))).toBeLessThan(1);
  });

  it('a chart moves the corner, which stays there', async () => {
    await dragWithin(chart(), [0.5, 0.5], [0.01, 0.5]);
    expect(await now(travel())).toBe(await end(travel(), 'min'));
    await dragWithin(chart(), [0.3, 0.5], [0.7, 0.5]);
    const high = await now(travel());
    expect(high).toBeGreaterThan(0);
    await bench.page.waitForTimeout(300);
    expect(await now(travel())).toBe(high);
  });

  it('a part is selected in the list, and in the view right after a drag on a chart', async () => {
    await button('Outboard').tap();
    await bench.page
      .locator('.parts-list')
      .getByRole('button', { name: /^Rotor/ })
      .tap();
    await sheet('Rotor 12 in').waitFor();
    // A busy machine draws the view from outboard late.
    await expect.poll(async () => (await storedCamera(bench.page))?.eye[1]).toBeGreaterThan(0.9);
    await dragWithin(chart(), [0.9, 0.5], [0.6, 0.5]);
    // The tyre is beside the middle of the wheel.
    const { height } = (await view().boundingBox()) ?? { height: 0 };
    const [x, y] = await within(view(), 0.5, 0.5);
    await bench.page.touchscreen.tap(x + 0.28 * height, y);
    await sheet('Tyre 265/75R16').waitFor();
    await button('Parts list').tap();
    await expect.poll(() => bench.page.locator('.sheet-head').count()).toBe(0);
  });

  it('a pair is selected, and its section moved by the handle and by the slider', async () => {
    const { page } = bench;
    await pair('Wheel 16 × 8 ↔ Tie rod').tap();
    await page.locator('[data-testid=dimension]:not([data-stale])').waitFor();
    expect(await isChosen(pair('Wheel 16 × 8 ↔ Tie rod'))).toBe('true');
    await button('Section').tap();
    const slide = slider('Offset of the section');
    await slide.waitFor();
    await button('Inboard').tap();
    const handle = page.locator('[data-testid=section-handle]:visible');
    await handle.waitFor();
    // Wait until the view is at rest.
    let at: Place = [0, 0];
    await expect
      .poll(
        async () => {
          const before = at;
          at = await within(handle, 0.5, 0.5);
          return before[0] === at[0] && before[1] === at[1];
        },
        { interval: 700, timeout: 20_000 },
      )
      .toBe(true);
    await drag(at, [at[0] + 25, at[1] + 25]);
    const slid = Number(await slide.inputValue());
    expect(slid).not.toBe(0);
    await dragWithin(slide, [0.5, 0.5], [0.8, 0.5]);
    expect(Number(await slide.inputValue())).toBeGreaterThan(slid + 10);
    await button('Section').tap();
    await slide.waitFor({ state: 'detached' });
  });
});

describe('a tap right after a flick is not lost', () => {
  const flicks: readonly (readonly [what: string, () => Locator, from: Place, to: Place])[] = [
    ['on the travel rule', travel, [0.5, 0.3], [0.5, 0.7]],
    ['on the map', map, [0.3, 0.3], [0.7, 0.7]],
    ['on a chart', chart, [0.3, 0.5], [0.8, 0.5]],
    ['in the view', view, [0.4, 0.6], [0.6, 0.8]],
  ];
  it.each(flicks)('%s', async (_, element, from, to) => {
    for (const name of ['Wheel 16 × 8 ↔ Tie rod', 'Rotor 12 in ↔ Twin-piston caliper']) {
      const row = pair(name);
      await row.scrollIntoViewIfNeeded();
      const at = await within(row, 0.5, 0.5);
      await dragWithin(element(), from, to);
      await bench.page.touchscreen.tap(...at);
      await expect.poll(() => isChosen(row)).toBe('true');
    }
  });
});
