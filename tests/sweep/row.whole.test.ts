import { describe, expect, it } from 'vitest';
import { type Row, RowSweeper } from '../../src/sweep/row.ts';
import { mulberry32 } from '../oracles/random.ts';
import { randomCorner } from '../oracles/randomCorner.ts';
import { randomShapes, shapeCorner } from './shapeCorner.ts';

const bytes = (row: Row): Record<string, Buffer> =>
  Object.fromEntries(Object.entries(row).map(([name, array]) => [name, Buffer.from(array.buffer)]));

describe('a row of the sweep', () => {
  it('is identical to the byte after other rows, within a band and for a single pose', () => {
    let numbers = 0;
    for (const seed of [4, 6, 11, 26, 41, 46]) {
      const random = mulberry32(seed);
      const suspension = randomCorner(seed);
      const setup = shapeCorner(suspension, randomShapes(random, suspension), {
        travelSteps: 7,
        steerSteps: 6,
      });
      const busy = new RowSweeper(setup);
      for (const travelIndex of [3, 0, 6, 2, 3]) {
        const travelMm = setup.travelMm[travelIndex];
        const where = `seed ${seed}, travel ${travelMm}`;
        const alone = new RowSweeper(setup).sweep(travelMm, setup.steer);
        expect(bytes(busy.sweep(travelMm, setup.steer)), where).toEqual(bytes(alone));
        const last = setup.steer.length - 1;
        const pose = busy.sweep(travelMm, setup.steer.slice(last));
        setup.pairs.forEach((_, p) => {
          const at = p * setup.steer.length + last;
          expect(pose.clearanceMm[p], where).toBe(alone.clearanceMm[at]);
          expect([...pose.points.slice(6 * p, 6 * p + 6)], where).toEqual([
            ...alone.points.slice(6 * at, 6 * at + 6),
          ]);
        });
        numbers += alone.clearanceMm.filter(Number.isFinite).length;
      }
      for (const band of [
        [1, 2, 3],
        [5, 6],
        [0, 1],
      ]) {
        const travelsMm = band.map((travelIndex) => setup.travelMm[travelIndex]);
        const alone = travelsMm.map((travelMm) => bytes(new RowSweeper(setup).sweep(travelMm, setup.steer)));
        const where = `seed ${seed}, travels ${travelsMm}`;
        expect(busy.sweepBand(travelsMm, setup.steer).map(bytes), where).toEqual(alone);
      }
    }
    expect(numbers).toBeGreaterThan(100);
  });
});
