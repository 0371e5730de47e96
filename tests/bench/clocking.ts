/**
 * Time of the clocking study and its 360 x 360 map on the desert demo, as it is and with the bolts of hub and caliper:
 * `npx tsx tests/bench/clocking.ts`. Processor time beside the time that passes, which other work on the machine sways.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pictureOf } from '../../src/app/fit/fitFound.ts';
import { cellAt } from '../../src/app/fit/fitPicture.ts';
import { withPart } from '../../src/design/edit.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { ANGLES } from '../../src/studies/clocking/profile.ts';
import { studyClocking } from '../../src/studies/clocking/study.ts';
import { DEFAULT_SETTINGS } from '../../src/sweep/result.ts';
import { setUp } from '../../src/sweep/setUp.ts';

const DEMO = resolve(import.meta.dirname, '../../demo-data/saltpan.corner.json');

const source: unknown = JSON.parse(readFileSync(DEMO, 'utf8'));
const hubBolts = {
  id: 'hubBolts',
  kind: 'bolts',
  joins: 'hubMount',
  size: 'M12',
  headSide: 'outboard',
} as const;
const caliperBolts = { id: 'caliperBolts', kind: 'bolts', joins: 'caliperMount', size: 'M12' } as const;

for (const [what, file] of [
  ['as it is', source],
  ['with bolts', withPart(withPart(source, hubBolts), caliperBolts)],
] as const) {
  const parsed = parseDesign(JSON.stringify(file));
  if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
  const setup = await setUp(parsed.design, DEFAULT_SETTINGS);
  const busy = process.cpuUsage();
  const start = performance.now();
  const study = await studyClocking(setup);
  const picture = pictureOf(study.axes, true);
  const cells = ANGLES.flatMap((caliperDeg) =>
    ANGLES.map((hubDeg) => cellAt(picture, { caliperDeg, hubDeg })),
  );
  const passed = (performance.now() - start) / 1000;
  const used = process.cpuUsage(busy).user / 1e6;
  const pairs = study.pairs.filter(({ about }) => about !== 'none').length;
  console.log(
    `${what}: ${pairs} pairs that follow a clocking, ${cells.length} cells: ${passed.toFixed(1)} s, ${used.toFixed(1)} s of processor`,
  );
}
