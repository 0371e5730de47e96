/**
 * Frames of the corner drawn while the travel of the river racer is dragged on the built workbench, compared with orbiting:
 * `npx tsx tests/bench/scrubPage.ts`. Frames per second and the longest task are wall-clock times; script per frame is
 * processor time of the page's main thread.
 */
import { cpus, loadavg } from 'node:os';
import { launchChromium } from '../browser/chromium.ts';
import { scriptByFrame, TRACED_SCRIPT } from './mainThread.ts';
import { serveBuild } from './serveBuild.ts';

/** Counters in the page. */
interface Seen {
  drawn: number;
  longestMs: number;
}

const MOVES = 300;
const MOVE_EVERY_MS = 16;

const served = await serveBuild({ minified: true });
const browser = await launchChromium();
try {
  console.log(`${cpus()[0].model} x ${cpus().length}, load ${loadavg()[0].toFixed(2)}, ${browser.version()}`);
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  // tsx wraps named functions in calls of `__name`, which the page does not define.
  await page.addInitScript('globalThis.__name = (f) => f');
  await page.addInitScript(() => {
    const seen = { drawn: 0, longestMs: 0 };
    Object.assign(window, { seen });
    let isDrawn = false;
    const { drawElements } = WebGL2RenderingContext.prototype;
    WebGL2RenderingContext.prototype.drawElements = function (...call) {
      isDrawn = true;
      drawElements.apply(this, call);
    };
    const count = () => {
      if (isDrawn) seen.drawn += 1;
      isDrawn = false;
      requestAnimationFrame(count);
    };
    requestAnimationFrame(count);
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) seen.longestMs = Math.max(seen.longestMs, duration);
    }).observe({ type: 'longtask' });
  });
  await page.goto(served.url);
  await page.getByRole('button', { name: 'I have read this' }).click();
  await page.locator('[data-progress=done]').waitFor({ timeout: 120_000 });
  const rule = await page.getByRole('slider', { name: 'Travel', exact: true }).boundingBox();
  if (rule === null) throw new Error('the rule of travel is not drawn');
  const drag = async (moves: number) => {
    for (let k = 0; k < moves; k++) {
      const share = 0.5 + 0.4 * Math.sin(k / 15);
      await page.mouse.move(rule.x + rule.width / 2, rule.y + share * rule.height);
      await page.waitForTimeout(MOVE_EVERY_MS);
    }
  };
  const canvas = await page.locator('.viewer canvas').boundingBox();
  if (canvas === null) throw new Error('the corner is not drawn');
  const [middleX, middleY] = [canvas.x + canvas.width / 2, canvas.y + canvas.height / 2];
  const turn = async (moves: number) => {
    for (let k = 0; k < moves; k++) {
      await page.mouse.move(middleX + 200 * Math.sin(k / 15), middleY + 60 * Math.cos(k / 15));
      await page.waitForTimeout(MOVE_EVERY_MS);
    }
  };
  const seen = () => page.evaluate(() => ({ ...(window as unknown as { seen: Seen }).seen }));
  /** Prints frames drawn per second and the longest task during `act`. */
  const watched = async (what: string, act: () => Promise<void>) => {
    await page.evaluate(() => Object.assign((window as unknown as { seen: Seen }).seen, { longestMs: 0 }));
    const before = await seen();
    const start = performance.now();
    await act();
    const perSecond = (1000 * ((await seen()).drawn - before.drawn)) / (performance.now() - start);
    const { longestMs } = await seen();
    const longest = longestMs === 0 ? 'below 50' : longestMs.toFixed(0);
    console.log(`${what}: ${perSecond.toFixed(1)} frames per second, longest task ${longest} ms`);
  };
  await page.mouse.move(middleX, middleY);
  await page.mouse.down();
  await turn(30);
  await watched('orbiting', () => turn(MOVES));
  await page.mouse.up();

  await page.mouse.move(rule.x + rule.width / 2, rule.y + rule.height / 2);
  await page.mouse.down();
  await drag(60);
  await watched('dragging travel', () => drag(MOVES));
  await browser.startTracing(page, { categories: TRACED_SCRIPT });
  await drag(MOVES);
  const frames = scriptByFrame(JSON.parse((await browser.stopTracing()).toString()));
  frames.sort((a, b) => a - b);
  const at = (share: number) => `${frames[Math.floor(share * frames.length)].toFixed(1)} ms`;
  console.log(`script a frame, ${frames.length} frames: median ${at(0.5)}, 95th percentile ${at(0.95)}`);
} finally {
  await browser.close();
  await served.close();
}
