import { describe, expect, it } from 'vitest';
import { figuresIn } from '../../../src/report/figures.ts';
import { alignmentOverSections, stopSections } from '../../../src/report/limits/limitsSections.ts';
import { sweepMapSvg } from '../../../src/report/sweepMap.ts';
import { alignmentOver } from '../../../src/studies/limits/alignmentStudy.ts';
import { lockOutDistances } from '../../../src/studies/limits/lockOuts.ts';
import { stopsOf } from '../../../src/studies/limits/stops.ts';
import { readDesign } from '../../design/readDesign.ts';
import { box, boxCorner, FEW_STEPS, parallelArms } from '../../studies/vary/boxCorner.ts';

/** At full bump, `rising` overlaps the box above it by 5 mm, unless that is `lifted`. */
async function study(lifted = 0) {
  const parts = [
    box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
    box('fixed', 'chassis', [0, 640, 430 + lifted], [200, 200, 20]),
  ];
  const suspension = { ...parallelArms, steering: { rackOutboard: 20, rackInboard: 20 } };
  const design = readDesign(boxCorner(parts, { suspension }));
  const stops = await stopsOf(design, { settings: FEW_STEPS });
  const { corner } = design;
  const limits = { alignment: alignmentOver(corner, 30), stops, lockOuts: lockOutDistances(corner) };
  const map = sweepMapSvg(corner, stops.result, stops.findings, figuresIn('mm'), stops);
  return { design, limits, map };
}

const texts = (sections: ReturnType<typeof stopSections>): string =>
  sections
    .flatMap(({ blocks }) => blocks)
    .map((block) =>
      block.kind === 'text' ? block.text : block.kind === 'list' ? block.items.join('\n') : '',
    )
    .join('\n');

describe('the report of limits', () => {
  it('has the usable part with its edge and the stops, and outlines it on the map', async () => {
    const { design, limits, map } = await study();
    const text = texts(stopSections({ limits }, figuresIn('mm')));
    expect(text).toMatch(/^Over 9\d\.\d % of travel × rack, every margin is kept and nothing binds/);
    expect(text).toMatch(/^1: rising ↔ fixed, from bump \+5\d\.\d mm, rack .* to bump \+5\d\.\d mm, rack /m);
    expect(text).toMatch(/^Bump and droop stops, clear at all lock: keeps 90\.0 % of travel × rack\.$/m);
    expect(text).toMatch(/^No steering stop alone clears/m);
    expect(map).toContain('can be used, with the numbers of its ends');
    expect(map).toMatch(/<circle [^>]*\/><text [^>]*>1<\/text>/);
    const [section] = alignmentOverSections({ design, limits }, figuresIn('mm'));
    const tables = section.blocks
      .flatMap((block) => (block.kind === 'folded' ? block.blocks : []))
      .filter((block) => block.kind === 'table');
    expect(tables.map(({ rows }) => rows.length)).toEqual([5, 5, 3]);
    for (const { columns, rows } of tables)
      for (const { cells } of rows) expect(cells).toHaveLength(columns.length);
  });

  it('has no stops and no outline if nothing fails, and no section without a study', async () => {
    const { limits, map } = await study(40);
    const text = texts(stopSections({ limits }, figuresIn('mm')));
    expect(text).toMatch(/^All of travel × rack can be used: every margin is kept and nothing binds\.$/m);
    expect(text).not.toContain('stop');
    expect(map).not.toContain('can be used');
    expect(stopSections({ limits: undefined }, figuresIn('mm'))).toEqual([]);
  });
});
