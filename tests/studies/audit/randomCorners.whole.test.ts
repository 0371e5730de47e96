import { describe, expect, it } from 'vitest';
import { auditCorner } from '../../../src/studies/audit/audit.ts';
import { randomWholeCorner } from '../../oracles/randomWholeCorner.ts';

const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: 0.4 };
const CORNERS = 50;
const BATCH = 10;

describe('the audit of random whole corners', () => {
  it.each(Array.from({ length: CORNERS / BATCH }, (_, batch) => batch * BATCH))(
    'finds no contact that the engine calls clear or that is not checked, seeds from %i on',
    async (first) => {
      const hidden: string[] = [];
      for (let seed = first; seed < first + BATCH; seed++) {
        const { setup, design } = await randomWholeCorner(seed, SETTINGS);
        const { pairs } = await auditCorner(setup);
        expect(pairs.length).toBeGreaterThan(10);
        for (const { a, b, unexplained } of pairs)
          if (unexplained?.hidden)
            hidden.push(
              `seed ${seed}, ${design.corner.name}: ${setup.solids[a].id} and ${setup.solids[b].id} share ` +
                `${unexplained.volumeMm3.toFixed(1)} mm^3 at ${JSON.stringify(unexplained.at)}, ` +
                `${unexplained.extentMm.map((mm) => mm.toFixed(1)).join(' x ')} mm ` +
                `about ${unexplained.middle.map((mm) => mm.toFixed(1)).join(', ')}`,
            );
      }
      expect(hidden).toEqual([]);
    },
  );
});
