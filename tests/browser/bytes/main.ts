import { clockingWorkers } from '../../../src/app/workers/fit/clockingWorkers.ts';
import { NO_ASSETS } from '../../../src/design/assets.ts';
import { startBrowserPool } from '../../../src/executors/browserWorkers.ts';
import { studyClocking } from '../../../src/studies/clocking/study.ts';
import { setUp } from '../../../src/sweep/setUp.ts';
import { readDesign } from '../../design/readDesign.ts';
import { digestOfClocking, digestsOf, STEPS } from './digests.ts';

declare global {
  interface Window {
    sweptInWorkers(designText: string): Promise<Record<string, string>>;
    clockedInWorkers(designText: string): Promise<string>;
  }
}

/** Sweeps and proves a corner in two workers of this page. */
window.sweptInWorkers = async (designText) => {
  const pool = startBrowserPool(2);
  try {
    await pool.open({ text: designText, assets: NO_ASSETS }, STEPS);
    const result = await pool.sweep();
    return digestsOf(result, await pool.prove(result));
  } finally {
    pool.end();
  }
};

/** Studies the clockings of a corner in two workers of this page. */
window.clockedInWorkers = async (designText) => {
  const design = readDesign(designText);
  const pool = clockingWorkers(2);
  try {
    return digestOfClocking(await studyClocking(await setUp(design, STEPS), { pool }));
  } finally {
    pool.end();
  }
};
