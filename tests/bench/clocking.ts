/**
 * Time of the clocking study and its 360 x 360 map, in the calling thread, on one thread and on two, and until the first
 * look at all pairs, with ratios of one run: `npx tsx tests/bench/clocking.ts [FILE]`. Threads have loaded before. Of the
 * river racer as it is and with the bolts of hub and caliper, unless a corner file is named. Processor time beside the time
 * that passes, which other work on the machine sways.
 */

import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { pictureOf } from '../../src/app/workers/fit/fitFound.ts';
import { cellAt } from '../../src/app/workers/fit/fitPicture.ts';
import { clockingThreads } from '../../src/cli/clockingThreads.ts';
import { withPart } from '../../src/design/edit.ts';
import type { ClockingPool } from '../../src/studies/clocking/clockingPool.ts';
import { ANGLES } from '../../src/studies/clocking/profile.ts';
import { studyClocking } from '../../src/studies/clocking/study.ts';
import { DEFAULT_SETTINGS } from '../../src/sweep/result.ts';
import { type Setup, setUp } from '../../src/sweep/setUp.ts';
import { readDesign } from '../design/readDesign.ts';

const DEMO = resolve(import.meta.dirname, '../../demo-data/gravelbeck.corner.json');
/** Longer than a thread takes to load. */
const LOADING_MS = 3000;

const [typed] = process.argv.slice(2);
const source: unknown = JSON.parse(readFileSync(typed ?? DEMO, 'utf8'));
const hubBolts = {
  id: 'hubBolts',
  kind: 'bolts',
  joins: 'hubMount',
  size: 'M12',
  headSide: 'outboard',
} as const;
const caliperBolts = { id: 'caliperBolts', kind: 'bolts', joins: 'caliperMount', size: 'M12' } as const;

interface Times {
  passed: number;
  used: number;
  firstPreview: number | undefined;
  pairs: number;
  cells: number;
}

async function timed(setup: Setup, pool?: ClockingPool): Promise<Times> {
  const busy = process.cpuUsage();
  const start = performance.now();
  const since = () => (performance.now() - start) / 1000;
  let firstPreview: number | undefined;
  const study = await studyClocking(setup, {
    pool,
    onPreview() {
      firstPreview ??= since();
    },
  });
  const picture = pictureOf(study.axes, true);
  const cells = ANGLES.flatMap((caliperDeg) =>
    ANGLES.map((hubDeg) => cellAt(picture, { caliperDeg, hubDeg })),
  );
  return {
    passed: since(),
    used: process.cpuUsage(busy).user / 1e6,
    firstPreview,
    pairs: study.pairs.filter(({ about }) => about !== 'none').length,
    cells: cells.length,
  };
}

const seconds = (s: number) => `${s.toFixed(1)} s`;

for (const [what, file] of typed === undefined
  ? [
      ['as it is', source],
      ['with bolts', withPart(withPart(source, hubBolts), caliperBolts)],
    ]
  : [[typed, source]]) {
  const design = readDesign(file);
  const setup = await setUp(design, DEFAULT_SETTINGS);
  const here = await timed(setup);
  console.log(
    `${what}: ${here.pairs} pairs that follow a clocking, ${here.cells} cells: ${seconds(here.passed)}, ${seconds(here.used)} of processor`,
  );
  for (const threads of [1, 2]) {
    const pool = clockingThreads(threads);
    await setTimeout(LOADING_MS);
    const { passed, used, firstPreview = Number.NaN } = await timed(setup, pool);
    pool.end();
    console.log(
      `  ${threads} thread${threads > 1 ? 's' : ''}: ${seconds(passed)} (${(passed / here.passed).toFixed(2)}), ${seconds(used)} of processor; first look after ${seconds(firstPreview)} (${(firstPreview / here.passed).toFixed(3)})`,
    );
  }
}
