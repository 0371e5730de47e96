/**
 * What script a frame takes while the travel of the desert demo is dragged on the built workbench, swept and proved:
 * `npx tsx tests/bench/scrubPage.ts`. Told is the time that the page's main thread had a core for.
 */
import { cpus, loadavg } from 'node:os';
import { launchChromium } from '../browser/chromium.ts';
import { scriptByFrame, TRACED_SCRIPT } from './mainThread.ts';
import { serveBuild } from './serveBuild.ts';

const MOVES = 300;
const MOVE_EVERY_MS = 16;

const served = await serveBuild({ minified: true });
const browser = await launchChromium();
try {
  console.log(`${cpus()[0].model} x ${cpus().length}, load ${loadavg()[0].toFixed(2)}, ${browser.version()}`);
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
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
  await page.mouse.move(rule.x + rule.width / 2, rule.y + rule.height / 2);
  await page.mouse.down();
  await drag(60);
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
