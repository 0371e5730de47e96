import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CLEARANCE_KINDS } from '../../src/clearance/clearance.ts';
import { DEFAULT_SETTINGS } from '../../src/sweep/result.ts';
import { RowSweeper } from '../../src/sweep/row.ts';
import { setUp } from '../../src/sweep/setUp.ts';
import { readDesign } from '../design/readDesign.ts';
import { cases } from '../oracles/random.ts';

const POSES: readonly [travelMm: number, steers: readonly number[]][] = [
  [-60, [-1, 0, 1]],
  [0, [-1, 0, 1]],
  [55, [-1, 0.5]],
];

/** Every pair of a demo corner at a few poses, with meshes of the given chord tolerance. */
async function measured(name: string, chordToleranceMm: number) {
  const path = new URL(`../../demo-data/${name}.corner.json`, import.meta.url);
  const design = readDesign(readFileSync(path, 'utf8'));
  const setup = await setUp(design, { ...DEFAULT_SETTINGS, chordToleranceMm });
  const sweeper = new RowSweeper(setup);
  const rows = POSES.map(([travelMm, steers]) => sweeper.sweep(travelMm, Float64Array.from(steers)));
  const named = ({ a, b }: (typeof setup.pairs)[number]) => `${setup.solids[a].id} and ${setup.solids[b].id}`;
  return { rows, names: setup.pairs.map(named), limitMm: setup.settings.limitMm };
}

/** Each demo at one tolerance; in deep runs more, and finer. */
const CASES = [
  ['larkrise', 0.5, 0.05],
  ['gravelbeck', 0.05, 0.01],
  ['gravelbeck', 0.5, 0.05],
  ['larkrise', 0.05, 0.005],
  ['gravelbeck', 0.05, 0.005],
] as const;

describe('error bars', () => {
  it.each(CASES.slice(0, cases(2, CASES.length)))(
    'of %s at a chord tolerance of %d mm contain the values at %d mm',
    async (name, coarseMm, fineMm) => {
      const [coarse, fine] = [await measured(name, coarseMm), await measured(name, fineMm)];
      let compared = 0;
      coarse.rows.forEach((row, k) => {
        const other = fine.rows[k];
        row.clearanceMm.forEach((mm, at) => {
          const kind = CLEARANCE_KINDS[row.state[at]];
          const pair = Math.floor(at / row.poseState.length);
          const where = `${coarse.names[pair]}, pose ${k}.${at % row.poseState.length}: ${kind} ${mm} ± ${row.errorMm[at]}`;
          if (kind === 'beyond') {
            // The true surfaces are not nearer than the limit, so the finer result is nearer by at most its own error.
            const nearest = Number.isNaN(other.errorMm[at])
              ? Infinity
              : other.clearanceMm[at] + other.errorMm[at];
            expect(nearest, where).toBeGreaterThanOrEqual(coarse.limitMm);
            return;
          }
          if (!Number.isFinite(other.clearanceMm[at])) {
            expect(mm + row.errorMm[at], where).toBeGreaterThanOrEqual(coarse.limitMm);
            return;
          }
          expect(
            Math.abs(mm - other.clearanceMm[at]),
            `${where}, finer ${other.clearanceMm[at]}`,
          ).toBeLessThanOrEqual(row.errorMm[at]);
          compared++;
        });
      });
      expect(compared).toBeGreaterThan(300);
    },
  );
});
