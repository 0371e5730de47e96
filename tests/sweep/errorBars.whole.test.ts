import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CLEARANCE_KINDS } from '../../src/clearance/clearance.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { DEFAULT_SETTINGS } from '../../src/sweep/result.ts';
import { RowSweeper } from '../../src/sweep/row.ts';
import { setUp } from '../../src/sweep/setUp.ts';

const POSES: readonly [travelMm: number, steers: readonly number[]][] = [
  [-60, [-1, 0, 1]],
  [0, [-1, 0, 1]],
  [55, [-1, 0.5]],
];

/** Every pair of a demo corner at a few poses, its meshes as fine as the chord tolerance asks. */
async function measured(name: string, chordToleranceMm: number) {
  const path = new URL(`../../demo-data/${name}.corner.json`, import.meta.url);
  const parsed = parseDesign(readFileSync(path, 'utf8'));
  if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
  const setup = await setUp(parsed.design, { ...DEFAULT_SETTINGS, chordToleranceMm });
  const sweeper = new RowSweeper(setup);
  const rows = POSES.map(([travelMm, steers]) => sweeper.sweep(travelMm, Float64Array.from(steers)));
  const named = ({ a, b }: (typeof setup.pairs)[number]) => `${setup.solids[a].id} and ${setup.solids[b].id}`;
  return { rows, names: setup.pairs.map(named), limitMm: setup.settings.limitMm };
}

describe.each(['larkrise', 'saltpan'])('error bars of %s', (name) => {
  it.each([
    [0.5, 0.05],
    [0.05, 0.005],
  ])('at a chord tolerance of %d mm hold the values at %d', async (coarseMm, fineMm) => {
    const [coarse, fine] = [await measured(name, coarseMm), await measured(name, fineMm)];
    let compared = 0;
    coarse.rows.forEach((row, k) => {
      const other = fine.rows[k];
      row.clearanceMm.forEach((mm, at) => {
        const kind = CLEARANCE_KINDS[row.state[at]];
        const pair = Math.floor(at / row.poseState.length);
        const where = `${coarse.names[pair]}, pose ${k}.${at % row.poseState.length}: ${kind} ${mm} ± ${row.errorMm[at]}`;
        if (kind === 'beyond') {
          // No true surfaces are nearer than the limit, so that the finer ones are nearer by their own error at most.
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
  });
});
