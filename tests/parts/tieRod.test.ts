import { describe, expect, test } from 'vitest';
import { addScaled, distance, normalize, sub } from '../../src/math/vec.ts';
import { buildTieRod } from '../../src/parts/tieRod/build.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, entryOf, jitteredCorner } from '../solids/benchCorner.ts';
import { expectHonest, expectSound } from '../solids/solidChecks.ts';

const SEED = 4104;

describe('a tie rod', () => {
  test('is the cylinder between its two end gaps, for random tie rods', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 15; i++) {
      const corner = jitteredCorner(random);
      const entry = entryOf(corner, 'tieRod');
      entry.tubeDiameter = between(random, 10, 40);
      entry.endGap = between(random, 0, 120);
      const chordToleranceMm = between(random, 0.01, 0.3);
      const [solid] = buildTieRod(entry, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, tie rod ${i}`;
      expectSound(solid, about);
      const { tieRodInner, tieRodOuter } = corner.suspension.hardpoints;
      const along = normalize(sub(tieRodOuter, tieRodInner));
      const truth = {
        from: addScaled(tieRodInner, along, entry.endGap),
        to: addScaled(tieRodOuter, along, -entry.endGap),
        radius: entry.tubeDiameter / 2,
      };
      expectHonest(solid, [truth], { chordToleranceMm, random, about });
      expect(solid.carrier).toBe('tieRod');
      expect(solid.attachments).toEqual([
        { name: 'tieRodInner', at: tieRodInner },
        { name: 'tieRodOuter', at: tieRodOuter },
      ]);
    }
  });

  test('rejects end gaps that leave no tube', async () => {
    const corner = benchCorner();
    const { tieRodInner, tieRodOuter } = corner.suspension.hardpoints;
    const entry = { ...entryOf(corner, 'tieRod'), endGap: distance(tieRodInner, tieRodOuter) / 2 };
    const context = await contextOf(corner);
    expect(() => buildTieRod(entry, context)).toThrow(/endGap 189.5 mm at both ends leaves no tube/);
  });
});
