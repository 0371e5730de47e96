import { describe, expect, test } from 'vitest';
import type { Entry } from '../../src/design/schema.ts';
import { dot, sub, type Vec3 } from '../../src/math/vec.ts';
import { buildBox } from '../../src/parts/box/build.ts';
import { areaMm2 } from '../oracles/meshChecks.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, randomPoint } from '../solids/benchCorner.ts';
import { expectSound } from '../solids/solidChecks.ts';

const SEED = 4102;
const plain = { kind: 'box', id: 'pan', allowance: 0, carrier: 'chassis' } as const;

describe('a box', () => {
  test('has its eight corners, volume a b c and area 2 (ab + bc + ca), for random boxes', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 40; i++) {
      const [a, b, c] = [between(random, 1, 500), between(random, 1, 500), between(random, 1, 500)];
      const [rollDeg, pitchDeg, yawDeg] = randomPoint(random, 180);
      const entry: Entry<'box'> = {
        ...plain,
        centre: randomPoint(random, 900),
        size: [a, b, c],
        rollDeg,
        pitchDeg,
        yawDeg,
      };
      const [solid] = buildBox(entry, await contextOf(benchCorner()));
      const about = `seed ${SEED}, box ${i}: ${JSON.stringify(entry)}`;
      expectSound(solid, about);
      expect(Math.abs(solid.volumeMm3 / (a * b * c) - 1), about).toBeLessThan(1e-6);
      expect(Math.abs(areaMm2(solid.mesh) / (2 * (a * b + b * c + c * a)) - 1), about).toBeLessThan(1e-6);
      expect(solid.chordErrorMm, about).toBeLessThan(1e-4);

      // The body's axes after roll, pitch, yaw, written out: columns of Rz(yaw) Ry(pitch) Rx(roll), ISO 8855 order
      // (from memory).
      const [cr, sr, cp, sp, cy, sy] = [rollDeg, pitchDeg, yawDeg].flatMap((deg) => [
        Math.cos((deg * Math.PI) / 180),
        Math.sin((deg * Math.PI) / 180),
      ]);
      const axes: Vec3[] = [
        [cy * cp, sy * cp, -sp],
        [cy * sp * sr - sy * cr, sy * sp * sr + cy * cr, cp * sr],
        [cy * sp * cr + sy * sr, sy * sp * cr - cy * sr, cp * cr],
      ];
      expect(solid.mesh.positions.length, about).toBe(24);
      for (let v = 0; v < 8; v++) {
        const [x, y, z] = solid.mesh.positions.subarray(3 * v, 3 * v + 3);
        const from = sub([x, y, z], entry.centre);
        axes.forEach((axis, k) => {
          expect(Math.abs(Math.abs(dot(from, axis)) - entry.size[k] / 2), about).toBeLessThanOrEqual(
            solid.chordErrorMm,
          );
        });
      }
    }
  });

  test('turns x toward y with yaw, z toward x with pitch, y toward z with roll', async () => {
    const context = await contextOf(benchCorner());
    const reach = (turn: Partial<Entry<'box'>>) => {
      const entry = { ...plain, centre: [0, 0, 0], size: [60, 20, 4], rollDeg: 0, pitchDeg: 0, yawDeg: 0 };
      const [{ mesh }] = buildBox({ ...entry, ...turn } as Entry<'box'>, context);
      return [0, 1, 2].map((axis) => Math.max(...mesh.positions.filter((_, i) => i % 3 === axis)));
    };
    const c = Math.cos(Math.PI / 6);
    const near = (found: number[], expected: number[]) =>
      found.forEach((x, i) => {
        expect(x).toBeCloseTo(expected[i], 4);
      });
    near(reach({}), [30, 10, 2]);
    near(reach({ yawDeg: 30 }), [30 * c + 5, 15 + 10 * c, 2]);
    near(reach({ pitchDeg: 30 }), [30 * c + 1, 10, 15 + 2 * c]);
    near(reach({ rollDeg: 30 }), [30, 10 * c + 1, 5 + 2 * c]);
  });
});
