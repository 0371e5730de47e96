import { expect, it } from 'vitest';
import { minimalCorner } from '../design/fixtures.ts';
import { chooseFile, onWorkbench, swept } from './onWorkbench.ts';

const bench = onWorkbench({
  demo: 'larkrise',
  // The page's workers, so that the test can make one of the engine's end as one does that runs out of memory.
  before: (page) =>
    page.addInitScript(() => {
      const made: Worker[] = [];
      Object.assign(window, { madeWorkers: made });
      window.Worker = class extends Worker {
        constructor(url: string | URL, options?: WorkerOptions) {
          super(url, options);
          if (String(url).includes('browserWorker')) made.push(this);
        }
      };
    }),
});

const text = async (selector: string) => (await bench.page.locator(selector).textContent()) ?? '';

it('a worker that dies is told, nothing of the sweep is shown as whole, and trying again works', async () => {
  const { page } = bench;
  const whole = await text('.counts');
  // Every worker dies as soon as the next sweep has a row.
  await page.evaluate(() => {
    const { madeWorkers } = window as unknown as { madeWorkers: Worker[] };
    const dieWhenSweeping = new MutationObserver(() => {
      const bar = document.querySelector<HTMLProgressElement>('[data-progress=running] progress');
      if (bar === null || bar.value === 0) return;
      dieWhenSweeping.disconnect();
      for (const worker of madeWorkers) {
        worker.terminate();
        worker.dispatchEvent(new ErrorEvent('error', { message: 'out of memory' }));
      }
    });
    dieWhenSweeping.observe(document.body, { subtree: true, childList: true, attributes: true });
  });
  await chooseFile(page, 'bench.corner.json', JSON.stringify(minimalCorner()));
  await page.locator('[data-progress=failed]').waitFor({ timeout: 60_000 });
  expect(await text('[data-testid=sweep-status]')).toContain(
    'Sweep failed: a sweep worker died: out of memory',
  );
  expect(await page.getByRole('button', { name: 'Clearance report' }).isDisabled()).toBe(true);
  expect(await text('.counts')).toMatch(/^so far/);
  await page.getByRole('button', { name: 'Try again' }).click();
  await swept(page);
  expect(await text('.counts')).not.toMatch(/so far/);
  expect(await text('.counts')).not.toBe(whole);
});
