/**
 * Longest main-thread tasks of each interaction: `npx tsx tests/bench/interactions.ts`. Runs on the built workbench, with
 * the river racer swept and proved. A task's length is the time for which its thread had a core. `--trace` profiles the
 * tasks; `--only WORDS` runs the interactions whose names contain the words.
 */
import { cpus, loadavg } from 'node:os';
import type { Page } from 'playwright-core';
import { launchChromium } from '../browser/chromium.ts';
import { type LongTask, longTasks, TRACED } from './mainThread.ts';
import { serveBuild } from './serveBuild.ts';

const LONG_MS = 50;
/** Time for the effects of an interaction to end: the camera turns, the pose is measured. */
const REST_MS = 2500;
const argument = (name: string) => process.argv[process.argv.indexOf(name) + 1];
const tracing = process.argv.includes('--trace');
const only = process.argv.includes('--only') ? argument('--only') : '';
const categories = TRACED.filter((name) => tracing || !name.endsWith('cpu_profiler'));

const press =
  (name: string | RegExp, exact = true) =>
  async (page: Page) =>
    page.getByRole('button', { name, exact }).first().click();
const pairs = (page: Page) => page.getByRole('listbox', { name: 'Pairs by margin' });
const choosePair = (nth: number) => async (page: Page) => pairs(page).getByRole('option').nth(nth).click();
const key = (name: string, times: number) => async (page: Page) => {
  for (let k = 0; k < times; k++) {
    await page.keyboard.press(name);
    await page.waitForTimeout(700);
  }
};
const swept = async (page: Page) => {
  await page.waitForTimeout(REST_MS);
  await page.locator('[data-testid=sweep-status][data-progress=done]').waitFor({ timeout: 240_000 });
};
const shaded = (page: Page) => page.locator('[data-shading=done]').waitFor({ timeout: 120_000 });
const travel = (page: Page) => page.getByRole('slider', { name: 'Travel', exact: true });
const rotor = (page: Page) =>
  page
    .locator('.parts-list')
    .getByRole('button', { name: /^Rotor/i })
    .first();

const INTERACTIONS: readonly (readonly [string, (page: Page) => Promise<unknown>])[] = [
  ...[0, 1, 2, 5, 8].map((nth) => [`pair ${nth + 1} chosen`, choosePair(nth)] as const),
  ['next pairs by arrow key', key('ArrowUp', 4)],
  ['section through the gap', press('Section')],
  [
    'section slid',
    async (page) => {
      await page.getByRole('slider', { name: /of the section$/ }).focus();
      for (let k = 0; k < 20; k++) await page.keyboard.press('ArrowRight');
    },
  ],
  ['pair chosen while cut', choosePair(3)],
  ['section off', press('Section')],
  ['all pairs', press('All pairs')],
  ['section through the axis', press('Section')],
  ['section off again', press('Section')],
  ['from outboard', press('Outboard')],
  ['from the top', press('Top')],
  ['glass off', press('Glass wheel')],
  ['glass on', press('Glass wheel')],
  ['pose held', press('Hold this pose')],
  [
    'posed elsewhere beside the held pose',
    async (page) => {
      await travel(page).focus();
      await page.keyboard.press('End');
    },
  ],
  ['tape out', press('Tape')],
  [
    'tape moved over the parts',
    async (page) => {
      const box = await page.locator('canvas').first().boundingBox();
      if (box === null) throw new Error('the corner is not drawn');
      for (let k = 0; k < 30; k++)
        await page.mouse.move(box.x + (0.3 + 0.01 * k) * box.width, box.y + (0.4 + 0.006 * k) * box.height);
    },
  ],
  ['tape away', press('Tape')],
  [
    'gap tint on',
    async (page) => {
      await press('Gap tint')(page);
      await shaded(page);
    },
  ],
  [
    'gap tint at another pose',
    async (page) => {
      await travel(page).focus();
      await page.keyboard.press('Home');
      await page.waitForTimeout(REST_MS);
      await shaded(page);
    },
  ],
  ['gap tint off', press('Gap tint')],
  ['part in hand', (page) => rotor(page).click()],
  [
    'dimension typed, swept anew',
    async (page) => {
      await page.getByLabel('Diameter', { exact: true }).fill('322 mm');
      await page.keyboard.press('Enter');
      await swept(page);
    },
  ],
  [
    'undone, swept anew',
    async (page) => {
      await press(/^Undo /, false)(page);
      await swept(page);
    },
  ],
  [
    'point moved by keys, swept anew',
    async (page) => {
      await press('Points and suspension')(page);
      await page.locator('.point-dot[title="Upper joint"]').click();
      await page.getByRole('spinbutton', { name: 'Upper joint, Z, in the view' }).focus();
      for (let k = 0; k < 8; k++) await page.keyboard.press('ArrowUp');
      await swept(page);
    },
  ],
  [
    'undone again, swept anew',
    async (page) => {
      await press(/^Undo /, false)(page);
      await swept(page);
      await press('Points and suspension')(page);
    },
  ],
  [
    'sheet of assumed values',
    async (page) => {
      await press(/ assumed$/)(page);
      await page.waitForTimeout(REST_MS);
      await press(/ assumed$/)(page);
    },
  ],
  ['part hidden', press(/^Show Upright/)],
  ['part shown', press(/^Show Upright/)],
  ['inches', press('in')],
  ['millimetres', press('mm')],
  ['light theme', press('Theme: auto')],
  ['dark theme', press('Theme: light')],
  ['map pressed', (page) => page.getByRole('slider', { name: 'Travel and steer' }).click()],
  [
    'chart looked along',
    async (page) => {
      await choosePair(1)(page);
      await page.waitForTimeout(REST_MS);
      const chart = page.getByRole('region', { name: 'Clearance against travel' }).getByRole('img');
      const box = await chart.boundingBox();
      if (box === null) throw new Error('the chart is not drawn');
      for (let k = 0; k < 20; k++)
        await page.mouse.move(box.x + (0.1 + 0.04 * k) * box.width, box.y + box.height / 2);
    },
  ],
  [
    'cycled',
    async (page) => {
      const cycle = page.getByRole('button', { name: 'Cycle travel and steer' });
      await cycle.click();
      await page.waitForTimeout(4000);
      await cycle.click();
    },
  ],
  ['clearance report', press('Clearance report')],
  ['sheet of a new corner', press('New corner')],
  ['sheet away', (page) => page.keyboard.press('Escape')],
  [
    'another corner opened',
    async (page) => {
      await page.getByLabel('Open an example or recent corner').selectOption({ index: 2 });
      await swept(page);
    },
  ],
];

/** To begin to sample takes a task of its own. */
const isOfPage = ({ within }: LongTask) => within.every(({ name }) => !name.startsWith('CpuProfiler'));
const told = ({ within, functions }: LongTask): string =>
  [within, functions]
    .map((part) => part.slice(0, 10).map(({ name, ms }) => `${name} ${ms.toFixed(0)}`))
    .filter(({ length }) => length > 0)
    .map((part) => `      ${part.join(', ')}`)
    .join('\n');

const served = await serveBuild({ minified: !tracing });
const browser = await launchChromium();
try {
  console.log(`${cpus()[0].model} x ${cpus().length}, load ${loadavg()[0].toFixed(2)}, ${browser.version()}`);
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  page.on('pageerror', (error) => console.log(`error in the page: ${error.message}`));
  await page.goto(served.url);
  await page.getByRole('button', { name: 'I have read this' }).click({ timeout: 60_000 });
  await swept(page);
  for (const [name, act] of INTERACTIONS) {
    const watched = name.includes(only);
    if (watched) await browser.startTracing(page, { categories });
    try {
      await act(page);
    } catch (error) {
      console.log(`${name}: could not be done: ${(error as Error).message.split('\n')[0]}`);
    }
    await page.waitForTimeout(watched ? REST_MS : 500);
    if (!watched) continue;
    const tasks = longTasks(JSON.parse((await browser.stopTracing()).toString()), 5).filter(isOfPage);
    tasks.sort((a, b) => b.cpuMs - a.cpuMs);
    const longest = tasks[0]?.cpuMs ?? 0;
    console.log(
      `${longest > LONG_MS ? 'LONG' : '    '} ${name.padEnd(38)} ${tasks
        .slice(0, 3)
        .map(({ cpuMs, ms }) => `${cpuMs.toFixed(0)} (${ms.toFixed(0)})`)
        .join(', ')} ms`,
    );
    if (tracing) for (const task of tasks.slice(0, 3)) if (task.cpuMs > LONG_MS / 2) console.log(told(task));
  }
} finally {
  await browser.close();
  await served.close();
}
