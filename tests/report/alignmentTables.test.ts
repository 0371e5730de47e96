import { expect, it } from 'vitest';
import { figuresIn } from '../../src/report/figures.ts';
import { alignmentTables } from '../../src/report/limits/alignmentTables.ts';
import { alignmentOver, EVERY_MM } from '../../src/studies/limits/alignmentStudy.ts';
import { readDesign } from '../design/readDesign.ts';
import { demoSource } from '../oracles/randomWholeCorner.ts';

it.each(['mm', 'in'] as const)('the numbers of an alignment table are those of its cells, in %s', (unit) => {
  const { corner } = readDesign(demoSource('larkrise'));
  const tables = alignmentTables(corner, alignmentOver(corner, EVERY_MM[unit]), figuresIn(unit));
  expect(tables.map(({ along }) => along)).toEqual([0, 0, 1]);
  for (const { titles, rows, values } of tables) {
    expect(rows.length).toBeGreaterThan(3);
    for (const [r, cells] of rows.entries()) {
      expect(values[r]).toHaveLength(titles.length);
      for (const [k, cell] of cells.entries()) {
        const value = values[r][k];
        const shown = cell === '–' ? undefined : Number(cell.replace('−', '-'));
        const halfDigit = 0.5 * 10 ** -(cell.split('.')[1]?.length ?? 0);
        if (shown === undefined || value === undefined)
          expect([titles[k], value]).toEqual([titles[k], shown]);
        else expect(Math.abs(value - shown), titles[k]).toBeLessThanOrEqual(halfDigit + 1e-9);
      }
    }
  }
});
