import { describe, expect, test } from 'vitest';
import type { Entry } from '../../src/design/schema.ts';
import { distance } from '../../src/math/vec.ts';
import { buildTube } from '../../src/parts/tube/build.ts';
import { segmentsFor } from '../../src/solids/modeller.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, randomPoint } from '../solids/benchCorner.ts';
import { expectHonest, expectSound } from '../solids/solidChecks.ts';

const SEED = 4101;

describe('a tube', () => {
  test('is closed, outward and within its error of the true cylinder, for random tubes', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 25; i++) {
      const entry: Entry<'tube'> = {
        kind: 'tube',
        id: 'rail',
        allowance: 0,
        carrier: 'chassis',
        from: randomPoint(random, 900),
        to: randomPoint(random, 900),
        diameter: between(random, 4, 120),
      };
      const chordToleranceMm = between(random, 0.01, 0.5);
      const [solid] = buildTube(entry, await contextOf(benchCorner(), chordToleranceMm));
      const about = `seed ${SEED}, tube ${i}: ${JSON.stringify(entry)}`;
      expectSound(solid, about);
      const truth = [{ from: entry.from, to: entry.to, radius: entry.diameter / 2 }];
      expectHonest(solid, truth, { chordToleranceMm, random, about });

      // A prism on a regular n-gon inscribed in the circle, area n r^2 sin(2 pi / n) / 2 (Euclid; any handbook).
      const r = entry.diameter / 2;
      const n = segmentsFor(r, chordToleranceMm);
      const prism = (n / 2) * r ** 2 * Math.sin((2 * Math.PI) / n) * distance(entry.from, entry.to);
      expect(Math.abs(solid.volumeMm3 / prism - 1), about).toBeLessThan(1e-6);
    }
  });

  test('moves with the given carrier', async () => {
    const corner = benchCorner();
    const entry: Entry<'tube'> = {
      kind: 'tube',
      id: 'rack',
      allowance: 0,
      carrier: 'rack',
      from: [0, -50, 300],
      to: [0, 50, 300],
      diameter: 24,
    };
    const [solid] = buildTube(entry, await contextOf(corner));
    expect(solid).toMatchObject({
      id: 'rack',
      kind: 'tube',
      carrier: 'rack',
      attachments: [],
      shown: undefined,
    });
  });

  test('rejects two ends at one point', async () => {
    const entry: Entry<'tube'> = {
      kind: 'tube',
      id: 'rail',
      allowance: 0,
      carrier: 'chassis',
      from: [1, 2, 3],
      to: [1, 2, 3],
      diameter: 20,
    };
    const context = await contextOf(benchCorner());
    expect(() => buildTube(entry, context)).toThrow(/same point \(1, 2, 3\)/);
  });
});
