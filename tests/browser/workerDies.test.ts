import { expect, it } from 'vitest';
import { minimalCorner, wheelCorner } from '../design/fixtures.ts';
import { chooseFile, onWorkbench, swept } from './onWorkbench.ts';

const bench = onWorkbench({
  results: 'made',
  corner: JSON.stringify(wheelCorner()),
  // Records the workers of the page, so that the test can end those of the engine as if they were out of memory.
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

it('reports a worker that dies, marks the counts as incomplete, and sweeps again on request', async () => {
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
